"""A new survey file: eight numbers first, and the rest ready to be filled in."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import dataclass
from typing import Literal

from counterhoop.errors import BadInput

LUG = "Corvane round lug"
LUGS = 6
EIGHT = {
    "circumference": ("951 mm", "37 7/16 in"),
    "depth": ("203 mm", "8 in"),
    "wall": ("5 mm", "13/64 in"),
    "first": ("30 deg", "30 deg"),
    "upper": ("38 mm", "1 1/2 in"),
    "lower": ("80 mm", "3 5/32 in"),
    "hole": ("6 mm", "15/64 in"),
}
"""The example figures of a new file; with the number of lugs they are eight."""
READ = {
    "across": ("302.5, 302.9, 302.6, 302.8 mm", "11.91, 11.93, 11.91, 11.92 in"),
    "dial": ("0, 0.1, -0.05, 0.2 mm", "0, 4, -2, 8 thou"),
    "zero": ("151.3 mm", "5.957 in"),
    "gaps": ("0, 0.1, 0.25, 0, 0, 0.1, 0, 0 mm", "0, 4, 10, 0, 0, 4, 0, 0 thou"),
    "apex": ("2 mm", "5/64 in"),
    "outer": ("3 mm", "1/8 in"),
    "collar": ("304.6 mm", "11.992 in"),
    "rim": ("311 mm", "12 1/4 in"),
    "hoop": ("312.5 mm", "12.303 in"),
    "outside": ("5.44 mm", "0.214 in"),
    "over": ("10.6 mm", "0.417 in"),
    "depth": ("203 mm", "8 in"),
    "off": ("1 mm", "1/32 in"),
    "fresh": ("0.2 mm", "8 thou"),
    "length": ("1500 mm", "59 in"),
    "width": ("600 mm", "23 5/8 in"),
    "bed": ("80 mm", "3 1/8 in"),
    "flat": ("40 mm", "1 9/16 in"),
    "deep": ("1.5 mm", "1/16 in"),
}
"""Example readings of the lines that stand ready behind their #."""

_REMARK_AT = 34


@dataclass(frozen=True, slots=True, kw_only=True)
class _Words:
    number: str
    client: str
    drum: str
    date: str
    measured_by: str
    units: str
    lug: str
    eight: dict[str, str]
    read: dict[str, str]


def new_survey(
    *,
    number: str,
    client: str = "",
    drum: str = "small tom",
    units: Literal["mm", "in"] = "mm",
    date: dt.date | None = None,
    measured_by: str = "",
    lug: str = LUG,
) -> str:
    """Return the text of a commented survey file to fill in; it reads without a fault as it is.

    Parameters
    ----------
    number : str
        The job's number, 1 to 40 characters.
    client, measured_by : str
        Whose drum it is and who holds the tape.
    drum : str
        What the first drum is called.
    units : "mm" or "in"
        What the rule is marked in.
    date : datetime.date, optional
        Day of the survey.
    lug : str
        A lug of the fittings book, to stand as the example.

    Raises
    ------
    BadInput
        When there is no number, or a name cannot stand in the file.

    Examples
    --------
    >>> print(new_survey(number="24-017").splitlines()[0])
    # Survey of job 24-017. Everything after a # is a remark and may go.
    """
    for name, text, most, needed in (
        ("number", number, 40, True),
        ("client", client, 120, False),
        ("drum", drum, 60, True),
        ("measured_by", measured_by, 120, False),
        ("lug", lug, 80, True),
    ):
        if not text.isprintable() or len(text) > most:
            raise BadInput(
                "cannot stand in a survey file",
                where=name,
                given=text,
                wanted=f"one line of at most {most} characters",
            )
        if needed and not text.strip():
            raise BadInput(
                "nothing is written here", where=name, wanted='some words, such as "24-017"'
            )
    if units not in ("mm", "in"):
        raise BadInput("not a unit to work in", where="units", given=units, wanted='"mm" or "in"')
    which = 0 if units == "mm" else 1
    words = _Words(
        number=_quoted(number),
        client=_quoted(client),
        drum=_quoted(drum),
        date=f"date = {date.isoformat()}" if date else "# date = 2026-11-02",
        measured_by=_quoted(measured_by),
        units=_quoted(units),
        lug=_quoted(lug),
        eight={name: _quoted(both[which]) for name, both in EIGHT.items()},
        read={name: _quoted(both[which]) for name, both in READ.items()},
    )
    lines = (
        *_head(words, number=number),
        *_eight_numbers(words),
        *_more_of_the_drum(words),
        *_stripped(words),
        *_wanted(words),
        *_whole_job(words),
    )
    return "\n".join(lines)


def _quoted(text: str) -> str:
    # A basic string of TOML escapes as JSON does.
    return json.dumps(text, ensure_ascii=False)


def _said(line: str, remark: str) -> str:
    return f"{line.ljust(_REMARK_AT)}  # {remark}"


def _head(words: _Words, *, number: str) -> tuple[str, ...]:
    return (
        f"# Survey of job {number}. Everything after a # is a remark and may go.",
        "#",
        "# Lengths stand in quotes with their unit, as the rule shows them:",
        '#   "203 mm"   "8 in"   "5 1/2 in"   "7/32 in"',
        "# ALONG runs to the right as you look at the outside, batter edge up, from the datum:",
        "#   a pencil tick on the bare wood inside. Degrees, or what the tape reads:",
        '#   "30 deg"   "79 mm on the tape"   "lug 3 + 12 mm"   "vent"',
        "# DOWN is the distance from the batter edge, that edge standing on the flat plate.",
        "",
        "format = 1",
        "",
        "[job]",
        f"number = {words.number}",
        f"client = {words.client}",
        words.date,
        f"measured_by = {words.measured_by}",
        _said(f"units = {words.units}", '"in" prints inches beside the mm'),
        _said('# tape = "0.2 mm"', 'how thick your tape is, or "diameter tape"'),
        _said('# air = { temperature = "18 C", humidity = "55 %" }', "of the day: wood moves"),
        "",
    )


def _eight_numbers(words: _Words) -> tuple[str, ...]:
    eight = words.eight
    return (
        f"[drums.{words.drum}]",
        "# Eight numbers. Those that stand here are an example: write your own over them.",
        _said(f"circumference = {eight['circumference']}", "1   tape once round, over the finish"),
        _said(f"depth = {eight['depth']}", "2   edge to edge"),
        _said(f"wall = {eight['wall']}", "3   bare shell, away from the rings"),
        _said('# size = "12 in dia x 8 in deep"', "what it is called by, not what it measures"),
        _said("# heads = 1", "when it is single-headed"),
        '# hoops = { batter = "flanged hoop 12 in, 6 ears" }',
        _said("", "by their names in the book; rods hang on them"),
        _said('# wood = "hard maple"', "when it is known"),
        "",
        f"[[drums.{words.drum}.rows]]",
        _said(f"lugs = {LUGS}", "4   how many, equally spaced"),
        _said(f"first = {eight['first']}", "5   where lug 1 is, along"),
        _said(
            f"near = [{eight['upper']}, {eight['lower']}]", "6 7 batter edge to the NEAR side of"
        ),
        _said("", "    the upper and the lower hole"),
        _said(f"hole = {eight['hole']}", "8   diameter of the lug's holes"),
        _said('head = "batter"', '"batter", "resonant" or "both"'),
        _said(f"fitting = {words.lug}", "the lug's name in the fittings book"),
        "# exceptions = [",
        _said('#   { lug = 3, right = "-2 mm" },', "stands 2 mm toward lug 2"),
        _said("#   { lug = 5, missing = true },", "gone, its holes are there"),
        "# ]",
        "",
    )


def _more_of_the_drum(words: _Words) -> tuple[str, ...]:
    drum, eight = words.drum, words.eight
    return (
        "# ---- The rest. Take the # away where it applies. ----",
        "",
        _said(f"# [[drums.{drum}.fittings]]", "bracket, strainer, butt, damper, badge"),
        '# label = "bracket"',
        _said('# fitting = "..."', "its name in the fittings book"),
        '# along = "90 deg"',
        _said(
            f"# holes = [{{ near = {eight['lower']}, dia = {eight['hole']} }}]", "one { } a hole"
        ),
        "",
        _said(f"# [[drums.{drum}.holes]]", "every other hole there is"),
        '# along = "30 deg"',
        _said(f"# near = {eight['upper']}", "the side nearest the batter edge"),
        _said(f"# dia = {eight['hole']}", "or far, the other side"),
        '# purpose = "vent"',
        _said('# origin = "factory"', '"factory", "extra" or "not sure"'),
        "",
        _said(f"# [[drums.{drum}.marks]]", "shadow or imprint of what is gone"),
        '# kind = "shadow"',
        '# along = "90 deg"',
        f"# near = {eight['upper']}",
        f'# outline = {{ shape = "rectangle", width = {eight["upper"]}, '
        f"height = {eight['lower']} }}",
        "",
        f"# [drums.{drum}.finish]",
        _said('# kind = "wrap"', '"wrap", "lacquer", "paint" or "bare"'),
        '# thickness = "0.5 mm"',
        "",
    )


def _stripped(words: _Words) -> tuple[str, ...]:
    drum, read = words.drum, words.read
    return (
        "# ---- Once it is stripped. ----",
        "# Stations stand at equal steps and run to the right, the first at the datum, or where",
        '#   from = "lug 1" puts it. A row of readings has one unit, at its end.',
        "# The depth at three places or more tells how the edges lie to each other; instead of 2:",
        f'#   depth = {{ "0 deg" = {read["depth"]}, "120 deg" = {read["depth"]}, '
        f'"240 deg" = {read["depth"]} }}',
        "",
        f"# [drums.{drum}.round.batter]",
        _said(f"# across = {read['across']}", "caliper, half a turn, within the top 20 mm"),
        _said("# overlap_read = false", "true when one ran through the wrap's overlap"),
        _said(f"# dial = {read['dial']}", "from a bar in the middle, once round"),
        _said(f"# zero = {read['zero']}", "bar to skin where the dial says 0"),
        "",
        f"# [drums.{drum}.edges.batter]",
        _said(f"# gaps = {read['gaps']}", "feelers under the edge on a flat plate"),
        _said("", 'or heights = "0.1, 0, -0.2, 0 mm" by gauge'),
        f'# profile = {{ cut = "round-over", apex = {read["apex"]}, outer = {read["outer"]} }}',
        _said("", '"round-over", "round-over and 45 inside",'),
        _said("", '"45 with back-cut", "single 45" or "30"'),
        "",
        _said(f"# [drums.{drum}.edges.resonant]", "the open end of a single-headed drum"),
        _said("# there = false", "no edge was ever cut"),
        "# wrap_to_edge = true",
        "",
        _said(f"# [drums.{drum}.fit.batter]", "the head that is to go on, as measured"),
        _said(f"# collar = {read['collar']}", "inside, where it goes over the shell"),
        _said(f"# rim = {read['rim']}", "outside of its rim"),
        _said(f"# hoop = {read['hoop']}", "inside of the counterhoop"),
        "",
        _said(f"# [[drums.{drum}.threads]]", "one rod or screw of each sort"),
        '# of = "batter rods"',
        '# head = "batter"',
        _said(f"# outside = {read['outside']}", "over the crests"),
        _said(f"# over = {read['over']}", 'ten threads; or pitch = "24 tpi" by a gauge'),
        _said('# flanks = "60 deg"', "when seen against a gauge"),
        "",
        _said(f"# [[drums.{drum}.beds]]", "snare beds, on the resonant edge"),
        '# along = "0 deg"',
        _said(f"# wide = {read['bed']}", "ramps included"),
        f"# flat = {read['flat']}",
        f"# deep = {read['deep']}",
        "",
    )


def _wanted(words: _Words) -> tuple[str, ...]:
    drum = words.drum
    return (
        "# What is wanted of it, once or several times:",
        '# "second head", "other lugs", "back to factory",',
        '# "take out", "put on", "move", "shorten", "kit snare".',
        f"# [[drums.{drum}.wish]]",
        '# want = "other lugs"',
        '# lug = "..."',
        "",
        f"# [drums.{drum}.finish_plan]",
        _said('# kind = "new wrap"', '"stays", "clear lacquer", "paint" or "new wrap"'),
        _said('# wrap = "blue ripple"', 'one of [wraps]; or thickness = "0.5 mm"'),
        _said(f"# true_resonant = {words.read['off']}", "comes off before anything is drilled"),
        _said('# true_batter = "flat"', "as much as its gaps or heights say"),
        f'# truing = {{ least = "most", parallel = false, fresh = {words.read["fresh"]} }}',
        _said("", 'least at the worst place, or in "total"'),
        "",
        _said(f"# [drums.{drum}.chosen]", "the scheme you take, once schemes are worked out"),
        _said('# scheme = "TVK6-H94E"', "its code"),
        "# A row of it that you move by hand; below zero is left, or toward the batter edge:",
        '# moved = [{ row = "resonant", right = "2.5 mm", down = "-1 mm" }]',
        "",
    )


def _whole_job(words: _Words) -> tuple[str, ...]:
    return (
        "# ---- For the whole job ----",
        _said("# [stock]", "what lies on the shelf"),
        f"# {words.lug} = 12",
        _said('# [wraps."blue ripple"]', "wrap at hand or to be bought"),
        '# thickness = "0.5 mm"',
        _said(f"# length = {words.read['length']}", "of a new sheet, the way the pattern runs"),
        f"# width = {words.read['width']}",
        _said("# sheets = 1", "at hand; leave it out when more can be had"),
        _said('# price = "38.00 GBP"', "of one sheet"),
        _said('# glue = "contact"', '"contact", "white PVA", "yellow PVA" or "epoxy"'),
        _said('# brushing = "20 min"', "a square metre, at your pace"),
        _said('# laying = "10 min"', "a sheet, at your pace"),
        _said("# [rules]", "your own limits"),
        '# web = "6 mm"',
        "# [prices]",
        '# hour = "30.00 GBP"',
        "# [minutes]",
        '# "drill a hole" = "6 min"',
        _said("# [[match]]", "drums that must look alike"),
        f'# drums = [{words.drum}, "large tom"]',
        "",
    )
