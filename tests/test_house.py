"""The house is kept: short files, plain names, nothing of anyone's machine, sources everywhere."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from counterhoop.sources import TableError, load_table

ROOT = Path(__file__).parents[1]
SRC = ROOT / "src" / "counterhoop"
MOST_LINES = 400
HEAVY = (
    *("scipy", "ortools", "ezdxf", "shapely", "typst", "pypdf", "matplotlib", "pandas"),
    *("sqlalchemy", "alembic", "psycopg", "PIL", "pillow_heif", "platformdirs"),
    *("fastapi", "starlette", "uvicorn", "jinja2", "python_multipart", "segno"),
)

# Brackets keep these patterns from finding themselves in this file.
VAGUE = re.compile(
    r"(^|/)_?([u]tils?|[h]elpers?|[c]ommon|[m]isc|[m]anagers?|[s]ervices?|[h]andlers?|[b]ase)\.py$"
)
FORBIDDEN = {
    "a path of someone's machine": re.compile(
        r"""(?<![\w.}])/([w]ork|[r]oot|[t]mp|[h]ome|[U]sers|[o]pt)/[A-Za-z]|\b[C]:\\"""
    ),
    "the host of a package registry": re.compile(
        r"[p]ypi\.org|[p]ythonhosted|[n]pmjs|[d]eb\.debian|"
        r"https?://[\w.-]*([r]egistry|[p]ackages|[m]irror)[\w.-]*/"
    ),
    "where a fact was heard": re.compile(
        r"(?i)[t]ranscript|\b[s]eed (document|file|video)|[y]outube"
    ),
    "a promise instead of a deed": re.compile(r"\b[T]ODO\b|\b[F]IXME\b|\b[N]otImplementedError\b"),
    "a test that cannot fail": re.compile(r"\b[a]ssert True\b"),
}


def tracked() -> list[str]:
    """Return the files of the project: what git tracks or, without git, what lies here."""
    if (ROOT / ".git").exists() and shutil.which("git"):
        listed = subprocess.run(
            ["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=False
        )
        if listed.returncode == 0:
            return [name for name in listed.stdout.split("\0") if name and (ROOT / name).exists()]
    ignored = {line.strip("/\n") for line in (ROOT / ".gitignore").read_text().splitlines()}
    return [
        file.relative_to(ROOT).as_posix()
        for file in ROOT.rglob("*")
        if file.is_file() and not ignored & set(file.relative_to(ROOT).parts)
    ]


def text_of(name: str) -> str:
    """Return a file as text, or nothing for pictures and fonts."""
    content = (ROOT / name).read_bytes()
    return "" if b"\0" in content else content.decode("utf-8", errors="replace")


def is_code(name: str) -> bool:
    return name.endswith((".py", ".typ", ".css", ".js")) or name in ("run", ".ci/run")


def too_long(texts: dict[str, str]) -> list[str]:
    return [
        f"{name}: {lines} lines"
        for name, text in texts.items()
        if (lines := len(text.splitlines())) > MOST_LINES
    ]


def forbidden(texts: dict[str, str]) -> list[str]:
    return [
        f"{name}:{number}: {what}: {line.strip()[:80]}"
        for name, text in texts.items()
        for number, line in enumerate(text.splitlines(), 1)
        for what, pattern in FORBIDDEN.items()
        if pattern.search(line)
    ]


def test_no_file_of_code_is_too_long() -> None:
    assert too_long({name: text_of(name) for name in tracked() if is_code(name)}) == []


def test_a_file_that_is_too_long_is_found() -> None:
    assert too_long({"long.py": "x = 1\n" * 401, "right.py": "x = 1\n" * 400}) == [
        "long.py: 401 lines"
    ]


def test_every_file_name_says_what_is_inside() -> None:
    assert [name for name in tracked() if VAGUE.search(name)] == []


@pytest.mark.parametrize("stem", ["util", "utils", "_helpers", "manager", "services", "misc"])
def test_a_vague_name_is_found(stem: str) -> None:
    assert VAGUE.search(f"src/counterhoop/scheme/{stem}.py")
    assert VAGUE.search(f"{stem}.py")
    assert not VAGUE.search(f"src/counterhoop/{stem}_of_lugs.py")


def test_nothing_in_the_project_stands_where_it_may_not() -> None:
    assert forbidden({name: text_of(name) for name in tracked()}) == []


@pytest.mark.parametrize(
    "line",
    [
        "see /{}ork/main/x".format("w"),
        'open("/{}mp/x")'.format("t"),
        "/{}ome/ann/drums.toml".format("h"),
        "--index https://files.{}ythonhosted.org/x".format("p"),
        "https://my.{}irror.example/simple".format("m"),
        "as the {}ranscript says".format("t"),
        "# {}ODO: later".format("T"),
        "    {}ssert True".format("a"),
    ],
)
def test_a_forbidden_line_is_found(line: str) -> None:
    assert len(forbidden({"notes.md": line})) == 1


def test_plain_lines_are_not_taken_for_forbidden_ones() -> None:
    text = 'Path(tmp_path / "work" / "x")\nhttps://scripts.sil.org/OFL\nwork/home/root\n1/2 in'
    assert forbidden({"notes.md": text}) == []


def loaded_by(module: str) -> list[str]:
    """Return the names of all modules that a fresh Python holds after importing one."""
    program = f"import json, sys; import {module}; print(json.dumps(sorted(sys.modules)))"
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    names: list[str] = json.loads(done.stdout)
    return names


def test_heavy_libraries_are_not_loaded_before_they_are_needed() -> None:
    module = "counterhoop.cli" if (SRC / "cli").exists() else "counterhoop"
    names = loaded_by(module)
    assert module in names
    assert sorted({name.split(".")[0] for name in names} & set(HEAVY)) == []


def test_a_heavy_library_would_be_seen() -> None:
    assert "shapely" in loaded_by("shapely")


def packaged_tables() -> list[tuple[str, str]]:
    """Return package and name of every table that is shipped."""
    found = []
    for folder in sorted(SRC.rglob("tables")):
        package = ".".join(["counterhoop", *folder.parent.relative_to(SRC).parts])
        found += [
            (package, file.relative_to(folder).as_posix())
            for file in sorted(folder.rglob("*.toml"))
        ]
    return found


def test_every_row_of_every_table_has_a_source() -> None:
    tables = packaged_tables()
    assert tables
    for package, name in tables:
        rows = load_table(package, name)
        assert rows, f"{package} {name} has no rows"
        for row in rows:
            assert row.values, f"{package} {name} has a row that says nothing"
            assert len(row.source.text) >= 8, f"{package} {name}: {row.values}: {row.source.text!r}"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[[row]]\nname = 'M6'\nseen = true\n", "no source"),
        ("[[row]]\nname = 'M6'\nseen = true\nsource = ' '\n", "no source"),
        ("[[row]]\nname = 'M6'\nsource = 'ISO 724'\n", "seen"),
        ("[[row\n", "not TOML"),
    ],
)
def test_a_row_without_a_source_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, text: str, says: str
) -> None:
    (tmp_path / "planted" / "tables").mkdir(parents=True)
    (tmp_path / "planted" / "__init__.py").touch()
    (tmp_path / "planted" / "tables" / "bad.toml").write_text(text)
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.delitem(sys.modules, "planted", raising=False)
    load_table.cache_clear()
    with pytest.raises(TableError, match=says):
        load_table("planted", "bad.toml")


def test_doctests_of_every_module_are_collected() -> None:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["pytest"]["ini_options"]
    assert "src" in settings["testpaths"]
    assert "--doctest-modules" in settings["addopts"]


def test_the_typeface_has_every_sign_that_the_papers_print() -> None:
    from fontTools.ttLib import TTFont

    fonts = sorted((SRC / "papers" / "fonts").glob("*.ttf"))
    assert [font.name for font in fonts] == ["Inter-Regular.ttf", "Inter-SemiBold.ttf"]
    assert "SIL OPEN FONT LICENSE" in (SRC / "papers" / "fonts" / "OFL.txt").read_text()
    for font in fonts:
        signs = TTFont(font).getBestCmap()
        missing = [sign for sign in "½¼¾⅛⅜⅝⅞″′Ø°±≤≥→×–·…" if ord(sign) not in signs]
        assert missing == [], font.name
        assert ord("鼓") not in signs, "the check itself must be able to fail"
