"""One order of work, worked through into a plan."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from counterhoop.errors import BadInput
from counterhoop.job.schedule.numbered import NEVER, Numbered, number_tasks
from counterhoop.job.schedule.task import HUNDREDTHS, Due, Placed, Plan, Shop, Task
from counterhoop.job.schedule.worked import Worked, worked


def work_through(
    order: Sequence[str],
    tasks: Sequence[Task],
    shop: Shop,
    minutes: Mapping[str, int] | None = None,
    *,
    held: Collection[str] = (),
    dues: Sequence[Due] = (),
) -> Plan:
    """Work through an order: at each free moment the first in it that may begin now does.

    Parameters
    ----------
    order : sequence of str
        Keys of all work, the most wanted first. Work listed before what it waits for counts
        as wanted right after it.
    tasks : sequence of Task
        All work.
    shop : Shop
        What there is.
    minutes : mapping of str to int, optional
        Hands at work by key, instead of what the tasks say.
    held : collection of str
        Keys of what is left alone until all before it in the order has begun (``Plan.held``).
    dues : sequence of Due
        For what is late.

    Raises
    ------
    BadInput
        The order is not one of this work, no shop could do it (``number_tasks``), or the
        working hours end before the work does.

    Examples
    --------
    >>> glue = Task(key="glue", job="1", drum="a", says="plug", minutes=60, cure_min=720)
    >>> drill = Task(key="drill", job="1", drum="a", says="drill", minutes=30, after=("glue",))
    >>> tune = Task(key="tune", job="2", drum="b", says="tune", minutes=90)
    >>> plan = work_through(
    ...     ("glue", "drill", "tune"), (glue, drill, tune),
    ...     Shop(open=((540, 720), (1980, 2160)), clamps=4, drying=1),
    ... )
    >>> [(one.key, one.stretches) for one in plan.placed]
    [('glue', ((540, 600),)), ('tune', ((600, 690),)), ('drill', ((1980, 2010),))]
    """
    numbered = number_tasks(tasks, shop, dues)
    places = {key: place for place, key in enumerate(numbered.keys)}
    if sorted(order) != sorted(places):
        odd = sorted(set(order) ^ set(places)) or sorted(order)
        raise BadInput("an order names all work once", given=odd[0])
    times = numbered.minutes if minutes is None else [minutes.get(key, 0) for key in places]
    for key, hands in zip(places, times, strict=True):
        if hands < 1:
            raise BadInput("work takes at least a minute", where=key, given=hands, wanted="1")
    holds = [key in held for key in numbered.keys]
    done = worked(
        numbered,
        numbered.in_turn([places[key] for key in order]),
        held=holds,
        minutes=times,
    )
    return plan_of(numbered, done, held=holds, minutes=times)


def plan_of(
    numbered: Numbered, done: Worked, *, held: Sequence[bool], minutes: Sequence[int]
) -> Plan:
    """Return what was worked as a plan.

    Raises
    ------
    BadInput
        The working hours end before the work does.
    """
    if done.late >= NEVER:
        left = next(key for place, key in enumerate(numbered.keys) if place not in done.order)
        raise BadInput(
            "the working hours given end before the work does", where=left,
            step="Give the hours of more weeks.",
        )  # fmt: skip
    return Plan(
        placed=tuple(
            Placed(
                key=numbered.keys[one],
                stretches=numbered.clock.pieces(done.begins[one], minutes[one]),
                cured=done.cured[one],
            )
            for one in done.order
        ),
        late=done.late / HUNDREDTHS,
        held=tuple(numbered.keys[one] for one in done.order if held[one]),
    )
