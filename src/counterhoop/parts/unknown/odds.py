"""What an unknown part may be, with odds.

Bayes' rule over all candidates and one more class, none of these. A candidate explains a reading
by the instrument's doubt and the spread between parts of its make (normal), and by wear that only
ever takes metal away (exponential). None of these is a part of another make that is like one of
the candidates, or anything at all; it wins where nothing fits.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from counterhoop.fittings.book import name_key
from counterhoop.parts.dimension import Measured, surest
from counterhoop.parts.of_thread import is_named
from counterhoop.parts.unknown.candidate import Candidate, Candidates
from counterhoop.parts.unknown.penalty import Penalty, penalties_of
from counterhoop.parts.unknown.terms import terms
from counterhoop.survey.thread_odds import Odds as SurveyWord
from counterhoop.survey.thread_odds import odds_words

Floats = NDArray[np.float64]
Word = SurveyWord | Literal["can't tell"]

NONE = 0.1
"""One unknown part in ten is of no book and not on the shelf. Common practice, no source."""
ANYTHING = 0.2
"""Of these, one in five is like nothing in the book. Common practice, no source."""
COULD_BE = 0.2
"""A leader of less than this is not worth naming as one. Common practice, no source."""
COULD_ALSO = 0.05
"""What is named beside the leader. Common practice, no source."""
WORTH_NAMING, MOST_NAMED, MOST_LIKE = 0.001, 200, 3
_KIND_WRONG = 0.03
"""How often the eye takes a part for one of another kind. Common practice, no source."""
_MATERIAL_WRONG, _FINISH_WRONG = 0.1, 0.4
"""How often the eye takes one material for another, and a part was plated or lacquered anew,
against one that is as it was. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """What the eye says of it; empty where it does not say."""

    kind: str = ""
    material: str = ""
    finish: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CandidateOdds:
    """One candidate with its odds, 0 to 1, and how each reading speaks for or against it."""

    candidate: Candidate
    odds: float
    penalties: tuple[Penalty, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Odds:
    """What a part may be.

    Attributes
    ----------
    measured, seen : tuple of Measured, Seen
        What was gone by: of two readings of one dimension the surer.
    ranked : tuple of CandidateOdds
        Likeliest first; those under a thousandth of the leader's odds are left out.
    none : float
        Odds that it is none of all candidates.
    like : tuple of CandidateOdds
        The three that it would be most like if it were none of them.
    against : str
        What it was held against: "the book and the shelf".
    """

    measured: tuple[Measured, ...]
    seen: Seen
    ranked: tuple[CandidateOdds, ...]
    none: float
    like: tuple[CandidateOdds, ...] = ()
    against: str = "the book and the shelf"

    @property
    def nothing_fits(self) -> bool:
        """It is more likely none of all candidates than one of them."""
        return self.none > 0.5

    @property
    def word(self) -> Word:
        """How far the leader is to be believed."""
        if self.nothing_fits or not self.ranked or self.ranked[0].odds < COULD_BE:
            return "can't tell"
        return odds_words(self.ranked[0].odds)

    @property
    def says(self) -> str:
        """What a colleague would say, in one sentence."""
        if self.nothing_fits:
            sure = "almost surely" if odds_words(self.none) == "almost sure" else "likely"
            like = f", most like {self.like[0].candidate.name}" if self.like else ""
            return f"It is {sure} none of {self.against}{like}; measure again what fits least."
        if self.word == "can't tell":
            alike = sum(one.odds >= self.ranked[0].odds / 4.0 for one in self.ranked)
            many = f"{alike} sorts fit" if 1 < alike < 12 else "many sorts fit"
            return f"Can't tell yet: {many} about as well."
        first, *rest = [one.candidate.name for one in self.ranked[:4] if one.odds >= COULD_ALSO]
        rest += [f"none of {self.against}"] if self.none >= COULD_ALSO else []
        sure = "almost surely" if self.word == "almost sure" else "likely"
        says = f"It could be {first}" if self.word == "could be" else f"It is {sure} {first}"
        return f"{says}; it could also be {_either(rest)}." if rest else f"{says}."


def odds(measured: Sequence[Measured], candidates: Candidates, *, seen: Seen | None = None) -> Odds:
    """Return what a part may be, likeliest first.

    Parameters
    ----------
    measured : sequence of Measured
        Any dimensions, in any order; none at all leaves how common each is.
    candidates : Candidates
        From `candidates_of`.
    seen : Seen, optional
        What the eye says.

    Examples
    --------
    >>> from counterhoop.fittings.read_book import packaged_book
    >>> from counterhoop.parts.dimension import Dimension, read_measured
    >>> from counterhoop.parts.unknown.candidate import candidates_of
    >>> read = [
    ...     read_measured(Dimension.HOLES_APART, "42.1 mm"),
    ...     read_measured(Dimension.BASE_HIGH, "57 mm"),
    ... ]
    >>> odds(read, candidates_of(packaged_book()), seen=Seen(kind="lug")).says
    'It is almost surely Corvane round lug.'
    """
    seen = seen or Seen()
    surer = surest(measured)
    weighed = weigh(surer, candidates, seen=seen)
    whole = np.logaddexp.reduce(np.concatenate((weighed.fit, weighed.near, [weighed.broad])))
    shares = np.exp(weighed.fit - whole)
    order = np.argsort(-shares, kind="stable")
    least = max(WORTH_NAMING * shares.max(initial=0.0), math.ulp(0.0))
    worth = [at for at in order[:MOST_NAMED] if shares[at] >= least]

    def named(at: np.int64) -> CandidateOdds:
        candidate = candidates.each[int(at)]
        penalties = penalties_of(candidate, surer)
        return CandidateOdds(candidate=candidate, odds=float(shares[at]), penalties=penalties)

    none = np.logaddexp.reduce(np.concatenate((weighed.near, [weighed.broad])))
    return Odds(
        measured=surer,
        seen=seen,
        ranked=tuple(map(named, worth)),
        none=float(np.exp(none - whole)),
        like=tuple(map(named, np.argsort(-weighed.near, kind="stable")[:MOST_LIKE])),
    )


@dataclass(frozen=True, slots=True)
class Weighed:
    """Logarithms of prior times likelihood, not yet divided by their sum.

    Attributes
    ----------
    fit, near : array, shape (candidates,)
        It is the candidate; it is another make's part like the candidate.
    broad : float
        It is anything.
    """

    fit: Floats
    near: Floats
    broad: float


def weigh(measured: Sequence[Measured], candidates: Candidates, *, seen: Seen) -> Weighed:
    """Hold readings, one for each dimension, against everything that the part may be."""
    if not len(candidates):
        nothing = np.empty(0)
        return Weighed(nothing, nothing, 0.0)
    before = np.log(candidates.share) + _looks(candidates, seen)
    fit = math.log1p(-NONE) + before
    near = math.log(NONE) + math.log1p(-ANYTHING) + before
    broad = math.log(NONE) + math.log(ANYTHING) + float(np.logaddexp.reduce(before))
    every = np.arange(len(candidates))
    for one in measured:
        log = terms(
            one.dimension,
            np.array([one.value]),
            doubt=one.doubt,
            candidates=candidates,
            which=every,
            as_new=is_named(one),
        )
        fit, near, broad = fit + log.fit[0], near + log.near[0], broad + float(log.broad[0])
    return Weighed(fit, near, broad)


def _looks(candidates: Candidates, seen: Seen) -> Floats:
    """Return the log odds of how each would look as it was seen."""
    if not (seen.kind or seen.material or seen.finish):
        return np.zeros(len(candidates))
    alike = [name_key(kind) == name_key(seen.kind) for kind in candidates.kinds]
    kinds = np.array(alike)[candidates.kind_of]
    other = math.log(_KIND_WRONG / max(1, len(candidates.kinds) - 1))
    log = np.where(kinds, math.log1p(-_KIND_WRONG), other) if seen.kind else np.zeros(len(kinds))
    for wanted, held, wrong in (
        (seen.material, [one.material for one in candidates], _MATERIAL_WRONG),
        (seen.finish, [one.finish for one in candidates], _FINISH_WRONG),
    ):
        if wanted:
            unlike = np.array([bool(word) and name_key(word) != name_key(wanted) for word in held])
            log = log + np.where(unlike, math.log(wrong), 0.0)
    return log


def _either(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"
