"""Rods: long enough, clear of the bottom, shank clear of the lug, the right thread."""

from __future__ import annotations

import math

from counterhoop.errors import Finding, Grade
from counterhoop.fittings.entry import Fitting
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.wording import both, figure, first_up
from counterhoop.scheme.heads import HeadPlan, heads_of
from counterhoop.scheme.layout import RodPlan
from counterhoop.scheme.rods import Stack, missing, rod_stacks
from counterhoop.scheme.threading import goes_into

BOOK_DOUBT_MM = 0.5  # a lug's mouth and a hoop's seat are measured with a rule


def check_rods(after: Afterwards, tally: Tally) -> None:
    """Hold the rods that are chosen against the stack, and say what is missing to choose them."""
    stacks = rod_stacks(after.layout, rules=after.rules)
    for head in heads_of(after.layout):
        _mixed(tally, head)
        if not any(stack.head == head.head for stack in stacks):
            _unknown(tally, head)
    for plan in after.layout.rods:
        stack = next((s for s in stacks if s.head == plan.head and s.thread == plan.thread), None)
        if plan.rod is None:
            _none(tally, plan)
        elif stack is not None:
            _length(after, tally, stack, plan.rod)
    for plan in after.layout.rods:
        if plan.rod is not None:
            _thread(tally, plan, plan.rod)


def _length(after: Afterwards, tally: Tally, stack: Stack, rod: Fitting) -> None:
    length = rod.rod_length_mm
    if length is None:
        return
    where = f"{stack.head} rods"
    least, most = stack.least_mm(rod), stack.most_mm(rod)
    serves = (
        f"from {figure(least)} to {figure(most)} mm"
        if math.isfinite(most)
        else (f"{figure(least)} mm or more")
    )
    engaged = length - least + stack.engaged_mm
    # A rod is cut to a length: what is doubtful are the heights that the book and tape give.
    if length < least - 0.05:
        short = least - length
        tally.say(
            Finding(
                code="rod-short",
                grade=Grade.STOP,
                says=first_up(
                    f"{where} of {figure(length)} mm are {figure(short)} mm short: they engage"
                    f" {figure(max(engaged, 0.0))} mm of thread; your rule is"
                    f" {figure(stack.engaged_mm)}."
                ),
                where=where,
                measured=engaged,
                limit=stack.engaged_mm,
                doubt=BOOK_DOUBT_MM,
                rule="engaged_mm",
                remedy=f"Take rods {serves} long.",
                too_close=short <= BOOK_DOUBT_MM,
            )
        )
    if length > most + 0.05:
        left = most - length + after.rules.bottom_clear_mm
        bottoms = left < 0.0
        tally.say(
            Finding(
                code="rod-bottoms",
                grade=Grade.STOP,
                says=first_up(
                    f"{where} of {figure(length)} mm "
                    + (
                        f"bottom in the lug {figure(-left)} mm before the head is at pitch"
                        if bottoms
                        else f"end {figure(left)} mm short of the lug's bottom"
                    )
                    + f"; your rule is {figure(after.rules.bottom_clear_mm)}."
                ),
                where=where,
                measured=left,
                limit=after.rules.bottom_clear_mm,
                doubt=BOOK_DOUBT_MM,
                rule="bottom_clear_mm",
                remedy=f"Take rods {serves} long.",
                too_close=length - most <= BOOK_DOUBT_MM,
            )
        )
    shank = stack.shank_left_mm(rod, rules=after.rules)
    if shank < -0.05:
        tally.say(
            Finding(
                code="shank-meets-lug",
                grade=Grade.STOP,
                says=first_up(
                    f"the plain shank of the {where} meets the lug {figure(-shank)} mm before the"
                    " head is at pitch and stretched."
                ),
                where=where,
                measured=shank,
                limit=0.0,
                doubt=BOOK_DOUBT_MM,
                rule="head_stretch_mm",
                remedy="Take rods with a longer thread, or cut the thread further up.",
                too_close=-shank <= BOOK_DOUBT_MM,
            )
        )


def _none(tally: Tally, plan: RodPlan) -> None:
    length = (
        f"{figure(plan.least_mm)} to {figure(plan.most_mm)} mm"
        if math.isfinite(plan.most_mm)
        else f"{figure(plan.least_mm)} mm or more"
    )
    none = plan.most_mm < plan.least_mm
    tally.say(
        Finding(
            code="no-rod-serves",
            grade=Grade.STOP if none else Grade.TAKE_CARE,
            says=(
                f"No rod can serve the {plan.head} head: to engage it would have to be"
                f" {figure(plan.least_mm)} mm, and to stay off the bottom {figure(plan.most_mm)}."
                if none
                else f"No rod in the book serves the {plan.head} head: {plan.count} rods with"
                f" {plan.thread} are wanted, {length} under the head."
            ),
            where=f"{plan.head} rods",
            limit=plan.least_mm,
            rule="engaged_mm",
            remedy=(
                "Take lugs with more free depth."
                if none
                else "Order that length, or cut longer rods down and run the thread on."
            ),
        )
    )


def _unknown(tally: Tally, head: HeadPlan) -> None:
    named = head.hoop is not None
    tally.say(
        Finding(
            code="rod-length-unknown",
            grade=Grade.NOTE,
            says=(
                f"The length of the {head.head} rods cannot be worked out: the survey and the"
                f" book do not say {missing(head)}."
            ),
            where=f"{head.head} rods",
            rule="engaged_mm",
            remedy=(
                "Measure it with the hoop on the head, and write it into the book."
                if named
                else "Name the hoop of each head in the survey, in the line hoops."
            ),
        )
    )


def _mixed(tally: Tally, head: HeadPlan) -> None:
    names = list(dict.fromkeys(lug.fitting.thread for lug in head.lugs if lug.fitting.thread))
    for other in names[1:]:
        going = goes_into(names[0], other)
        if going.goes:
            continue
        of = both(lug.label for lug in head.lugs if lug.fitting.thread == other)
        tally.say(
            Finding(
                code="thread-unlike",
                grade=Grade.TAKE_CARE,
                says=first_up(
                    f"the {head.head} row has lugs with two threads, {of} the second: {going.says}."
                ),
                where=of,
                unit="",
                rule="one thread a row",
                remedy="Bag and mark the rods lug by lug, or change the inserts.",
            )
        )


def _thread(tally: Tally, plan: RodPlan, rod: Fitting) -> None:
    going = goes_into(rod.thread, plan.thread)
    if going.goes:
        return
    says = f"the {plan.head} rods do not fit the lugs: {going.says}"
    if going.alike:
        says += "; they start by hand and then spoil the lug's thread"
    tally.say(
        Finding(
            code="thread-unlike",
            grade=Grade.STOP,
            says=first_up(says + "."),
            where=f"{plan.head} rods",
            unit="",
            rule="rod and lug have one thread",
            remedy=f"Take rods with {plan.thread}, and try the first turns with the fingers only.",
        )
    )
