"""Whether the head measured for one end of a drum goes on, as found and under a finish plan."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from counterhoop.development.flat import End
from counterhoop.development.surface import Skin
from counterhoop.shell.drum import Drum
from counterhoop.shell.readings import HeadRead
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wish import FinishPlan
from counterhoop.survey.drum_survey import EndSurvey, survey_end
from counterhoop.survey.head_fit import HeadFit, HeadReadings, head_fit


@dataclass(frozen=True, slots=True, kw_only=True)
class EndFit:
    """One end and its head.

    Attributes
    ----------
    head : HeadRead
        The head and the counterhoop as measured.
    as_found : HeadFit
        Over the finish that is on the drum.
    to_come : HeadFit or None
        Over the finish to come; None where that leaves every diameter as it is.
    widest_deg : float or None
        Where the largest diameter was read.
    """

    end: End
    head: HeadRead
    as_found: HeadFit
    to_come: HeadFit | None
    widest_deg: float | None

    @property
    def final(self) -> HeadFit:
        """The answer for the drum as it will be."""
        return self.to_come or self.as_found

    @property
    def shut_out(self) -> bool:
        """Whether the finish to come keeps off a head that went on before."""
        return self.to_come is not None and self.as_found.goes and not self.to_come.goes


def fit_of(
    drum: Drum,
    end: End,
    *,
    rules: ShopRules,
    finish: FinishPlan | None = None,
    surveyed: EndSurvey | None = None,
) -> EndFit | None:
    """Return whether the measured head goes on; None when no head was measured for this end.

    Radial readings say more than diameters: a collar must pass the smallest circle that holds
    them all, which with odd lobes is wider than any diameter. They tell how far that is over the
    mean; the mean itself is the girth's, as a bar's own length is known by a rule only.

    Parameters
    ----------
    rules : ShopRules
        Clearances from which a head floats or sits snug.
    finish : FinishPlan, optional
        What is to come.
    surveyed : EndSurvey, optional
        What the readings of this end say, where that is worked out already.
    """
    head = drum.readings.at(end).head
    if head is None:
        return None
    said = surveyed or survey_end(drum, end)
    read = _readings(drum, said, head)
    found_mm, old_wrap_mm = _finish_mm(drum, None)
    found = _over(read, grows_mm=found_mm, wrap_mm=old_wrap_mm, overlap=_overlap(drum, end))
    as_found = head_fit(found, floats_mm=rules.head_floats_mm, snug_mm=rules.head_snug_mm)
    to_come = None
    grows_mm, wrap_mm = _finish_mm(drum, finish)
    if (grows_mm, wrap_mm) != (found_mm, old_wrap_mm):
        to_come = head_fit(
            replace(
                _over(read, grows_mm=grows_mm, wrap_mm=wrap_mm, overlap=False),
                butt=finish is not None and finish.butt,
            ),
            floats_mm=rules.head_floats_mm,
            snug_mm=rules.head_snug_mm,
        )
    return EndFit(
        end=end,
        head=head,
        as_found=as_found,
        to_come=to_come,
        widest_deg=None if said.across is None else said.across.largest_deg,
    )


def _readings(drum: Drum, said: EndSurvey, head: HeadRead) -> HeadReadings:
    """What was read, on the surface that it was read on."""
    read = HeadReadings(
        around_mm=said.girth_mm,
        collar_mm=head.collar_mm,
        rim_mm=head.rim_mm,
        hoop_mm=head.hoop_mm,
        around_doubt_mm=drum.circumference.doubt_mm,
        head_doubt_mm=head.doubt_mm,
    )
    if said.across is None:
        return read
    largest, smallest = said.across.largest_mm, said.across.smallest_mm
    # The doubt of a difference of two, so that of one is less by the root of two.
    doubt = said.across.doubt_mm / math.sqrt(2.0)
    if said.diameters is None and said.roundness is not None:
        off = said.girth_mm / math.pi - 2.0 * said.roundness.least_squares.radius_mm
        largest = max(largest, 2.0 * said.roundness.circumscribed.radius_mm) + off
        smallest += off
        doubt = math.hypot(doubt, read.around_doubt_mm / math.pi)
    return replace(read, largest_mm=largest, smallest_mm=smallest, doubt_mm=doubt)


def _over(read: HeadReadings, *, grows_mm: float, wrap_mm: float, overlap: bool) -> HeadReadings:
    """The same shell with every diameter grown by what finish goes on or comes off.

    A diameter that ran through the old overlap counts as it was read: once that is off, it is
    too large by the old wrap's thickness at most.
    """
    return replace(
        read,
        around_mm=read.around_mm + math.pi * grows_mm,
        largest_mm=None if read.largest_mm is None else read.largest_mm + grows_mm,
        smallest_mm=None if read.smallest_mm is None else read.smallest_mm + grows_mm,
        wrap_mm=wrap_mm,
        overlap_measured=overlap,
    )


def _overlap(drum: Drum, end: End) -> bool:
    """Whether a reading over the old finish holds its overlap."""
    return drum.readings.at(end).overlap_read and drum.circumference.skin is not Skin.BARE


def _finish_mm(drum: Drum, finish: FinishPlan | None) -> tuple[float, float]:
    """How much every diameter grows from the surface read, and the wrap that then lies there."""
    read_on = 0.0 if drum.circumference.skin is Skin.BARE else drum.finish.thickness_mm
    old_wrap = drum.finish.thickness_mm if drum.finish.kind == "wrap" else 0.0
    if finish is None or finish.kind == "stays":
        return 2.0 * (drum.finish.thickness_mm - read_on), old_wrap
    if finish.kind == "new wrap":
        thick = finish.thickness_mm or 0.0
        return 2.0 * (thick - read_on), thick
    return -2.0 * read_on, 0.0
