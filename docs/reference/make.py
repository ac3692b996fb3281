"""Write the reference pages from the code: run it after a change to help texts, tables or schemas.

``.venv/bin/python docs/reference/make.py`` writes beside this script. The pages are kept in the
repository, and a test holds that they are what this script makes.
"""

from __future__ import annotations

import json
import runpy
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from typer.main import get_command

from counterhoop.bench.change.found_codes import found_codes
from counterhoop.bench.listing import listing_schema
from counterhoop.cli.commands import app
from counterhoop.fittings.entry import Kind
from counterhoop.fittings.read_book import MODELS, book_schema
from counterhoop.job.trade.posting_codes import posting_codes
from counterhoop.scheme.findings.catalogue import CatalogueEntry, catalogue
from counterhoop.shell.operations import operations
from counterhoop.shell.survey_file.resolve_shop import rule_names
from counterhoop.sources import Row, load_table
from counterhoop.standards.threads import all_threads

HERE = Path(__file__).parent
MADE = "<!-- Made by docs/reference/make.py. Change the code, not this page. -->"
FIGURE_MM = 2  # decimals of a table's millimetres


def main() -> None:
    """Write every page."""
    for name, text in pages().items():
        (HERE / name).write_text(text, encoding="utf-8")
        print(HERE.name + "/" + name)


def pages() -> dict[str, str]:
    """Return each page by its name."""
    survey = runpy.run_path(str(HERE / "write_survey_schema.py"))
    return {
        "commands.md": commands(),
        "findings.md": findings(),
        "shop-rules.md": shop_rules(),
        "operations.md": operation_minutes(),
        "fittings-book.md": fittings_book(),
        "threads-and-drills.md": threads_and_drills(),
        "schemes.schema.json": _json(listing_schema()),
        "book.schema.json": _json(book_schema()),
        survey["NAME"]: survey["schema_text"](),
    }


def commands() -> str:
    """Return every command with its arguments and options."""
    top: Any = get_command(app)
    lines = [
        _paragraphs(top.help),
        "",
        "Each command takes `--help` and says what stands here.",
        "",
    ]
    lines += _options(p for p in top.params if p.name != "help")
    lines += [
        "",
        "A command that cannot use what it was given says so in one line; its exit code is 2.",
    ]
    for name, command in top.commands.items():
        taken = [p for p in command.params if p.param_type_name == "argument"]
        words = " ".join(f"[{p.metavar}]" if not p.required else p.metavar for p in taken)
        options = [p for p in command.params if p.param_type_name == "option" and p.name != "help"]
        asked = " ".join(f"{p.opts[0]} {p.metavar}" for p in options if p.required)
        usage = " ".join(part for part in ("counterhoop", name, words, asked) if part)
        lines += ["", f"## {name}", "", f"`{usage}`", "", _paragraphs(command.help), ""]
        rows = [(f"`{p.metavar}`", p.help or "") for p in taken]
        rows += [_option(p) for p in options]
        lines += _table(("what", "says"), rows)
    return _page("Commands", lines)


def findings() -> str:
    """Return every code that a finding can have."""
    lines = [
        "A finding is one thing to know about the drum or about a scheme. It has a grade:",
        "",
        "- **stop**: the scheme makes something anew that your rules forbid. A scheme with a stop"
        " is not offered as long as another reaches the same wish.",
        "- **take care**: it can be done; know this first.",
        "- **note**: the drum has had it all along, or it changes nothing you do.",
        "",
        "Where a limit lies inside the doubt of your own readings the finding says *too close to"
        " call* and what to measure again; a stop is then only *take care*"
        " ([why](../explanation/doubt.md)). The papers print the sentence; the code stands in"
        " `counterhoop schemes --json`.",
        "",
    ]
    rules = {field: name for name, field in rule_names().items()}
    rows = [
        (
            f"`{entry.code}`",
            ", ".join(grade.words for grade in entry.grades),
            entry.says,
            ", ".join(f"[{rules[r.strip()]}](shop-rules.md)" for r in entry.rule.split(",") if r),
        )
        for entry in catalogue()
    ]
    lines += _table(("code", "grades", "means", "rule"), rows)
    lines += [
        "",
        "## Before a drum is posted",
        "",
        "What stands on a drum's sheet *For sale*. None of it is the law of a country: lists and"
        " limits change, so each finding names what to ask and whom; a carrier's limits are those"
        " that you typed. Here *stop* says: not before an authority or the carrier has said yes.",
        "",
    ]
    lines += _codes(posting_codes())
    lines += [
        "",
        "## Found once work had begun",
        "",
        "What you write down under *Found on the way* is a finding on that drum. The program works"
        " none of it out: the words are yours, the grade goes by the client's answer.",
        "",
    ]
    return _page("Findings", [*lines, *_codes(found_codes())])


def _codes(found: Sequence[CatalogueEntry]) -> list[str]:
    rows = [
        (f"`{one.code}`", ", ".join(grade.words for grade in one.grades), one.says) for one in found
    ]
    return _table(("code", "grades", "means"), rows)


def shop_rules() -> str:
    """Return every limit, its name in a survey file and its default."""
    names = {field: name for name, field in rule_names().items()}
    lines = [
        "The limits that your workshop works to. Change any of them in the survey file:",
        "",
        "```toml file",
        "[rules]",
        'web = "7 mm"',
        'lean_fixed = "1.5 deg"',
        "plug_factor = 3",
        "```",
        "",
        "A rule that you leave out keeps its default.",
        "",
    ]
    rows = [
        (
            f"`{names[row.values['name']]}`",
            _figure(row.values["name"], float(row.values["value"])),
            row.values["says"],
            str(row.source),
        )
        for row in load_table("counterhoop.shell", "shop_rules.toml")
    ]
    return _page("Shop rules", [*lines, *_table(("rule", "default", "says", "source"), rows)])


def operation_minutes() -> str:
    """Return every operation with its minutes and its waiting."""
    lines = [
        "What one of each takes at the bench, and how long it is then left alone. All of it is"
        " common practice, no source. Put your own figures in the survey file; the price of an"
        " hour too:",
        "",
        "```toml file",
        "[prices]",
        'hour = "34.00 GBP"',
        "",
        "[minutes]",
        '"drill a hole" = "8 min"',
        "",
        "[cure]",
        '"plug a hole" = "24 h"',
        "```",
        "",
    ]
    rows = [
        (
            o.name,
            f"{o.minutes:g} min",
            f"{o.cure_hours:g} h" if o.cure_hours else "",
            o.says,
        )
        for o in operations()
    ]
    return _page("Operations", [*lines, *_table(("operation", "hands", "waiting", "one is"), rows)])


def fittings_book() -> str:
    """Return what an entry of each kind says."""
    lines = [
        "A fittings book is a TOML file, one `[[fitting]]` table an entry. The packaged book is"
        " invented: measure your own parts ([how](../howto/own-fittings-book.md)). `counterhoop"
        " fitting` lists what there is, `counterhoop fitting NAME` shows one.",
        "",
        "Right and down are measured from a point of your choice on the fitting (its reference"
        " point), the fitting upright as you look at it from outside; a lug stands with its mouth"
        " toward the batter edge. Names in **bold** must be there.",
        "",
        "Any entry: " + _fields(MODELS["leg"], skip=("diameter", "length")) + ".",
        "",
        "Anything fixed to the shell also: " + _fields(MODELS["butt"], skip=_names("leg")) + ".",
        "",
    ]
    rows = []
    for kind in Kind:
        model = MODELS[kind.value]
        mounted = "base" in model.model_fields and "reach" in model.model_fields
        known = {*_names("leg")} - {"diameter", "length"} | (
            {*_names("butt")} if mounted else set()
        )
        rows.append(
            (kind.value, "yes" if mounted else "", _fields(model, skip=tuple(known)) or "no more")
        )
    lines += _table(("kind", "fixed to the shell", "says besides"), rows)
    lines += [
        "",
        "Lengths are text with a unit, as in the survey file. `base` and `throw` are outlines:",
        "",
        "```toml book",
        "[[fitting]]",
        'name = "plain badge"',
        'kind = "badge"',
        'source = "measured"',
        'base = { shape = "rounded", width = "50 mm", height = "26 mm", corner = "13 mm" }',
        'holes = [{ down = "0 mm", hole = "13 mm", screw = "12.5 mm" }]',
        'reach = "2 mm"',
        "```",
        "",
        "Shapes: `rounded` (width, height, corner), `rectangle` (width, height), `disc`"
        " (diameter), `polygon` (points, right and down of each). `right` and `down` move any of"
        " them off the reference point. A program reads the same from"
        " [book.schema.json](book.schema.json).",
    ]
    return _page("The fittings book", lines)


def threads_and_drills() -> str:
    """Return the threads that are known, and the holes that let a screw pass."""
    lines = [
        "Threads that the book and the survey may name. Two that look alike are still two: never"
        " force one into the other.",
        "",
    ]
    rows = [
        (
            thread.designation,
            ", ".join(thread.also),
            f"{thread.major_mm:.{FIGURE_MM}f}",
            f"{thread.pitch_mm:.3f}",
            "" if thread.threads_per_inch is None else str(thread.threads_per_inch),
            f"{thread.angle_deg:g}",
            str(thread.source),
        )
        for thread in all_threads()
    ]
    head = ("thread", "also", "over the crests, mm", "pitch, mm", "to the inch", "angle", "source")
    lines += _table(head, rows)
    lines += ["", "## Holes that let a screw pass", ""]
    holes = load_table("counterhoop.standards", "clearance.toml")
    lines += _table(
        ("screw", "close", "usual", "loose", "source"),
        [
            (*(row.values[n] for n in ("major", "fine", "medium", "coarse")), str(row.source))
            for row in holes
        ],
    )
    lines += ["", "## Drills", ""]
    drills = load_table("counterhoop.standards", "drills.toml")
    for system in dict.fromkeys(row.values["system"] for row in drills):
        lines += _drills(system, [row for row in drills if row.values["system"] == system])
    return _page("Threads and drills", lines)


def _drills(system: str, rows: Sequence[Row]) -> list[str]:
    known: set[str] = set()
    for row in rows:
        known |= row.values.keys()
    columns = [name for name in ("name", "diameter", "first", "last", "step") if name in known]
    body = [tuple(str(row.values.get(name, "")) for name in columns) for row in rows]
    sources = "; ".join(dict.fromkeys(str(row.source) for row in rows))
    return [f"### {system}", "", *_table(columns, body), "", f"Source: {sources}.", ""]


def _figure(field: str, value: float) -> str:
    for end, unit in (("_mm", " mm"), ("_deg", " deg"), ("_cents", " cents")):
        if field.endswith(end):
            return f"{value:g}{unit}"
    return f"{value:g}"


def _names(kind: str) -> tuple[str, ...]:
    return tuple(MODELS[kind].model_fields)


def _fields(model: Any, *, skip: Sequence[str]) -> str:
    return ", ".join(
        f"**{name}**" if info.is_required() else name
        for name, info in model.model_fields.items()
        if name not in skip
    )


def _options(params: Iterable[Any]) -> list[str]:
    return _table(("what", "says"), [_option(p) for p in params])


def _option(param: Any) -> tuple[str, str]:
    called = (
        " / ".join((param.opts[0], *param.secondary_opts))
        if param.is_flag
        else f"{param.opts[0]} {param.metavar}"
    )
    shown = param.default not in (None, "", 0, False) and not param.required
    usual = f" Usually `{param.default}`." if shown else ""
    return f"`{called}`", f"{param.help or ''}{usual}"


def _paragraphs(text: str) -> str:
    return "\n\n".join(" ".join(part.split()) for part in text.strip().split("\n\n"))


def _table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> list[str]:
    lines = [f"| {' | '.join(head)} |", f"|{'---|' * len(head)}"]
    for row in rows:
        cells = (" ".join(str(cell).split()).replace("|", "\\|") for cell in row)
        lines.append(f"| {' | '.join(cells)} |")
    return lines


def _page(title: str, lines: Sequence[str]) -> str:
    return "\n".join([MADE, "", f"# {title}", "", *lines]).rstrip() + "\n"


def _json(schema: dict[str, Any]) -> str:
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    main()
