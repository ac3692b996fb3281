"""A unit imports only from layers below its own, heavy libraries wait, and the core is pure."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

SRC = Path(__file__).parents[1] / "src" / "counterhoop"

LAYERS = (
    "errors | quantities sources | standards | development | shell fittings | survey wrap heads"
    " | listen scheme | parts evidence | job | papers store | bench | web | cli | __main__"
)
RANK = {unit: rank for rank, layer in enumerate(LAYERS.split("|")) for unit in layer.split()}
HEAVY = {
    *("scipy", "ortools", "ezdxf", "shapely", "typst", "pypdf"),
    *("alembic", "av", "icalendar", "PIL", "pillow_heif", "platformdirs", "psycopg", "sqlalchemy"),
}
# Rooms in which a heavy library may be imported at the top: whoever needs the room needs it too.
AT_HOME = {"sqlalchemy": "store/", "alembic": "store/migrations/"}
SPEAK_SQL = {"sqlalchemy", "sqlite3", "psycopg", "alembic"}
PURE = {unit for unit, rank in RANK.items() if rank <= RANK["job"]}
# What a pure room may not reach for: a clock, files, the network, chance, other programs.
OUTSIDE = {
    *("glob", "http", "io", "logging", "os", "pathlib", "random", "secrets", "shutil", "socket"),
    *("sqlite3", "subprocess", "tempfile", "threading", "time", "urllib", "uuid"),
}
OUTSIDE_CALLS = {"print", "open", "input"}
OUTSIDE_ATTRIBUTES = {"now", "today", "utcnow", "default_rng"}

Sources = dict[str, str]
Violations = list[str]


def read_sources() -> Sources:
    """Read every module below src/counterhoop, by its path from there."""
    return {
        file.relative_to(SRC).as_posix(): file.read_text(encoding="utf-8")
        for file in sorted(SRC.rglob("*.py"))
    }


def unit_of(path: str) -> str:
    return path.split("/")[0].removesuffix(".py")


def package_of(path: str) -> list[str]:
    """Return the package that a relative import in this file starts from."""
    return ["counterhoop", *path.split("/")[:-1]]


def modules_named(path: str, tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Yield line and full name of every module that a file names, wherever it does so.

    Imports inside functions and for types only count like any other, and so does a module that
    is named in a text on its own, as ``import_module`` and ``load_table`` take it.
    """
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            package = package_of(path)
            start = package[: len(package) - node.level + 1] if node.level else []
            base = ".".join([*start, *([node.module] if node.module else [])])
            yield from ((node.lineno, f"{base}.{alias.name}") for alias in node.names)
        elif (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and re.fullmatch(r"counterhoop(\.\w+)+", node.value)
        ):
            yield node.lineno, node.value


def upward_imports(sources: Sources) -> Violations:
    """Return every import of a unit that is not below the importing one."""
    found = []
    for path, text in sources.items():
        unit = unit_of(path)
        if unit not in RANK and unit != "__init__":
            found.append(f"{path}: {unit} stands in no layer")
            continue
        for line, name in modules_named(path, ast.parse(text)):
            parts = name.split(".")
            if parts[0] != "counterhoop" or len(parts) == 1 or parts[1] == unit:
                continue
            if parts[1] in RANK and RANK[parts[1]] >= RANK.get(unit, -1):
                found.append(f"{path}:{line}: {unit} imports {parts[1]}")
    return found


def imports_at_start(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Yield line and first name of every import that runs when the module is imported."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name.split(".")[0]) for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and not node.level:
            yield node.lineno, (node.module or "").split(".")[0]
        elif isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test):
            continue
        elif not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            yield from imports_at_start(node)


def heavy_at_start(sources: Sources) -> Violations:
    """Return every heavy library that is imported before a function needs it."""
    return [
        f"{path}:{line}: {name} is imported at the top"
        for path, text in sources.items()
        for line, name in imports_at_start(ast.parse(text))
        if name in HEAVY and not path.startswith(AT_HOME.get(name, "nowhere"))
    ]


def sql_elsewhere(sources: Sources) -> Violations:
    """Return every import with which a room other than the store would speak SQL."""
    return [
        f"{path}:{line}: {name} outside the store"
        for path, text in sources.items()
        for line, name in modules_named(path, ast.parse(text))
        if name.split(".")[0] in SPEAK_SQL and unit_of(path) != "store"
    ]


def impurities(sources: Sources) -> Violations:
    """Return every clock, file, network, chance, print and global of the pure rooms."""
    found = []
    for path, text in sources.items():
        if unit_of(path) not in PURE:
            continue
        tree = ast.parse(text)
        for line, name in modules_named(path, tree):
            if name.split(".")[0] in OUTSIDE:
                found.append(f"{path}:{line}: imports {name}")
        for node in ast.walk(tree):
            called = node.func if isinstance(node, ast.Call) else None
            if isinstance(called, ast.Name) and called.id in OUTSIDE_CALLS:
                found.append(f"{path}:{node.lineno}: calls {called.id}")
            if isinstance(called, ast.Attribute) and called.attr in OUTSIDE_ATTRIBUTES:
                found.append(f"{path}:{node.lineno}: calls {called.attr}")
            if isinstance(node, ast.Global):
                found.append(f"{path}:{node.lineno}: global {', '.join(node.names)}")
    return found


def test_every_unit_imports_only_from_below() -> None:
    assert upward_imports(read_sources()) == []


def test_heavy_libraries_wait_until_a_function_needs_them() -> None:
    assert heavy_at_start(read_sources()) == []


def test_only_the_store_speaks_sql() -> None:
    assert sql_elsewhere(read_sources()) == []


def test_the_core_is_pure() -> None:
    assert impurities(read_sources()) == []


def test_the_sources_are_really_read() -> None:
    sources = read_sources()
    assert {"errors.py", "sources.py"} <= set(sources)
    assert any(
        name.startswith("counterhoop.errors")
        for _, name in modules_named("sources.py", ast.parse(sources["sources.py"]))
    )


@pytest.mark.parametrize(
    ("path", "text", "says"),
    [
        ("scheme/reuse.py", "from counterhoop.papers import tile", "scheme imports papers"),
        ("scheme/reuse.py", "import counterhoop.bench.plan", "scheme imports bench"),
        ("scheme/reuse.py", "from counterhoop import cli", "scheme imports cli"),
        ("scheme/reuse.py", "from ..listen import pitch", "scheme imports listen"),
        ("scheme/reuse.py", "from .. import job", "scheme imports job"),
        ("scheme/deep/reuse.py", "from ...job import hours", "scheme imports job"),
        ("shell/hole.py", "from counterhoop.fittings import Lug", "shell imports fittings"),
        ("shell/hole.py", "def f():\n    import counterhoop.scheme", "shell imports scheme"),
        (
            "shell/hole.py",
            "from typing import TYPE_CHECKING\n"
            "if TYPE_CHECKING:\n    from counterhoop.fittings import Lug",
            "shell imports fittings",
        ),
        ("shell/hole.py", "import_module('counterhoop.scheme.reuse')", "shell imports scheme"),
        ("errors.py", "from counterhoop.sources import Source", "errors imports sources"),
        ("__init__.py", "from counterhoop.errors import BadInput", "__init__ imports errors"),
        ("gadget/thing.py", "x = 1", "gadget stands in no layer"),
    ],
)
def test_a_planted_import_is_found(path: str, text: str, says: str) -> None:
    (found,) = upward_imports({path: text})
    assert found.endswith(says)


def test_imports_that_are_allowed_pass() -> None:
    allowed = {
        "scheme/reuse.py": "from counterhoop.development import web\nfrom .verdict import Keep\n"
        "from counterhoop.shell.hole import Hole\nimport numpy\nfrom counterhoop import errors",
        "cli/__init__.py": "from counterhoop import __version__\nfrom ..bench import plan",
    }
    assert upward_imports(allowed) == []


@pytest.mark.parametrize(
    "text",
    ["import scipy.optimize", "from shapely import Polygon", "try:\n    import typst\nfinally: 1"],
)
def test_a_planted_heavy_library_is_found(text: str) -> None:
    assert len(heavy_at_start({"papers/tile.py": text})) == 1
    inside = "def f():\n" + "\n".join(f"    {line}" for line in text.splitlines())
    assert heavy_at_start({"papers/tile.py": inside}) == []


def test_the_store_may_import_its_database_at_the_top_and_others_may_not() -> None:
    text = "from sqlalchemy import select"
    assert heavy_at_start({"store/save.py": text}) == sql_elsewhere({"store/save.py": text}) == []
    assert len(heavy_at_start({"store/save.py": "import alembic"})) == 1
    assert len(heavy_at_start({"web/page.py": text})) == 1
    assert len(sql_elsewhere({"bench/job.py": "def f():\n    import sqlite3"})) == 1


@pytest.mark.parametrize(
    "text",
    [
        "import random",
        "from time import time",
        "from pathlib import Path",
        "print(1)",
        "open('x')",
        "datetime.now()",
        "np.random.default_rng(1)",
        "def f():\n    global x",
    ],
)
def test_a_planted_impurity_is_found(text: str) -> None:
    assert len(impurities({"scheme/reuse.py": text})) == 1
    assert impurities({"cli/show.py": text}) == []
