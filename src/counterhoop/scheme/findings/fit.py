"""Whether the head that was measured for an end goes on, as found and over the finish to come."""

from __future__ import annotations

from counterhoop.errors import Finding, Grade
from counterhoop.quantities.print_length import CALIPER_MM
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.read_once import (
    cut_away,
    ends_with_a_head,
    finish_of,
    surveyed,
)
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.wording import first_up
from counterhoop.survey.drum_fit import EndFit, fit_of
from counterhoop.survey.head_fit import Fit, HeadFit
from counterhoop.survey.head_ways_out import other_hoop, ways_out
from counterhoop.survey.head_words import VERBS, WOULD_TELL, rim_words, room_words, round_words

STRIP_FIRST = (
    "Tape a strip of that wrap round the end, its overlap too, and try the head by hand before"
    " anything is glued"
)


def check_fit(after: Afterwards, tally: Tally) -> None:
    """Say where a measured head is tight, wants the shell rounder, does not go on, or is not known.

    Never a stop: the final word is the actual head, tried by hand. Not even for a head that goes
    on now and not over the scheme's new wrap: every scheme of the drum would be stopped alike by
    something that moves no hole and that a band cut free under the collar, or a thinner wrap,
    clears. It is graver all the same, for glue cannot be tried off again: it has a code of its
    own, comes first, and asks for a strip of the wrap to be tried before anything is glued.
    """
    layout = after.layout
    for end in ends_with_a_head(layout):
        if layout.drum.readings.at(end).head is None or cut_away(layout, end):
            continue
        found = fit_of(
            layout.drum,
            end,
            rules=after.rules,
            finish=finish_of(layout),
            surveyed=surveyed(layout.drum, end),
        )
        if found is None:
            continue
        _goes(after, tally, found)
        _hoop(tally, found)
        _not_known(tally, found)


def _goes(after: Afterwards, tally: Tally, found: EndFit) -> None:
    code = _code(found)
    if not code:
        return
    final = found.final
    known = final.known
    limit, rule = {
        "head-tight": (final.snug_mm, "head_snug_mm"),
        "head-wants-round": (final.wanted_mm, "half the room for a snug head"),
    }.get(code, (0.0, "a head goes over the shell"))
    tally.say(
        Finding(
            code=code,
            grade=Grade.TAKE_CARE,
            says=first_up(_says(after, found)),
            where=f"{found.end} end",
            along_deg=found.widest_deg,
            measured=known.clear_mm,
            limit=limit,
            doubt=known.doubt_mm,
            rule=rule,
            remedy=_remedy(found),
            too_close=known.too_close,
        )
    )


def _code(found: EndFit) -> str:
    final = found.final
    if found.shut_out:
        return "head-shut-out"
    if not final.goes:
        return "head-does-not-go"
    if final.known.fit in (Fit.TIGHT, Fit.DOES_NOT_GO):
        return "head-tight"
    return "" if final.round_enough else "head-wants-round"


def _says(after: Afterwards, found: EndFit) -> str:
    final = found.final
    known, eased, stands = final.known, final.eased_round, final.as_it_stands is not None
    over = ""
    if found.to_come is not None:
        wrapped = after.layout.finish.kind == "new wrap"
        over = "over the new wrap " if wrapped else "with the old finish off "
    how = "as it stands" if stands else "eased round"
    says = f"{over}the {found.end} head {VERBS[known.fit]} {how}, {room_words(known.clear_mm)}"
    if found.widest_deg is not None and _shows(final):
        says += f", widest at {found.widest_deg:.0f} degrees"
    if stands and eased.fit is not known.fit:
        says += f"; eased round it {VERBS[eased.fit]}, {room_words(eased.clear_mm)}"
    if found.shut_out:
        says += "; over the finish as found it goes on"
    says += ": too close to call, measure collar and shell again." if known.too_close else "."
    return says if final.round_enough else f"{says} {round_words(final)}"


def _shows(fit: HeadFit) -> bool:
    """Whether a caliper tells the largest diameter from the smallest."""
    largest, smallest = fit.readings.largest_mm, fit.readings.smallest_mm
    return largest is not None and smallest is not None and largest - smallest >= CALIPER_MM


def _remedy(found: EndFit) -> str:
    """The cheapest way out that can be undone."""
    final = found.final
    wrapped = found.to_come is not None and final.readings.wrap_mm > 0.0
    whole = [w for w in ways_out(final, new_wrap=wrapped) if w.undone.startswith("wholly")]
    best = next((way for way in whole if way.enough), whole[0])
    if not wrapped:
        return f"{first_up(best.short)}; try it by hand."
    if found.shut_out:
        # What a band leaves bare is as it was found, and there the head went on.
        best = next(way for way in whole if "band" in way.short)
    return f"{STRIP_FIRST}; then {best.short}."


def _hoop(tally: Tally, found: EndFit) -> None:
    final = found.final
    clear, way = final.rim_clear_mm, other_hoop(final)
    if clear is None or way is None:
        return
    close = abs(clear) <= final.rim_doubt_mm
    tally.say(
        Finding(
            code="hoop-too-small",
            grade=Grade.TAKE_CARE,
            says=rim_words(final)[:-1]
            + (": too close to call, measure both again." if close else "."),
            where=f"{found.end} hoop",
            measured=clear,
            limit=0.0,
            doubt=final.rim_doubt_mm,
            rule="a hoop goes over the head's rim",
            remedy=f"{first_up(way.short)}; try it by hand.",
            too_close=close,
        )
    )


def _not_known(tally: Tally, found: EndFit) -> None:
    if found.final.as_it_stands is not None:
        return
    tally.say(
        Finding(
            code="fit-not-known",
            grade=Grade.NOTE,
            says=(
                f"How the {found.end} head goes on as the shell stands is not known: only a tape"
                " was read there."
            ),
            where=f"{found.end} end",
            unit="",
            rule="four diameters",
            remedy=WOULD_TELL,
        )
    )
