"""The file ``run``: what it installs, when, and what its exit code says; nothing is downloaded."""

from __future__ import annotations

import ast
import importlib.machinery
import importlib.util
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[1]
PINNED = re.compile(r"[A-Za-z0-9._-]+==[A-Za-z0-9.+!]+( ; [\w '\".<>=!()]+)?")
CI = (ROOT / ".ci" / "run").read_text(encoding="utf-8")


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """Return the file as a module whose .venv is an empty folder of this test."""
    loader = importlib.machinery.SourceFileLoader("counterhoop_run", str(ROOT / "run"))
    spec = importlib.util.spec_from_loader("counterhoop_run", loader)
    assert spec
    module = importlib.util.module_from_spec(spec)
    loader.exec_module(module)
    venv = tmp_path / ".venv"
    venv.mkdir()
    monkeypatch.setattr(module, "VENV", venv)
    monkeypatch.setattr(module, "BIN", venv / "bin")
    monkeypatch.setattr(module, "PYTHON", venv / "bin" / "python")
    return module


class Calls:
    """Stands in for starting programs: keeps every command, answers as told."""

    def __init__(self, **failing: int) -> None:
        self.failing = failing
        self.commands: list[str] = []
        self.environments: list[dict[str, str]] = []

    def __call__(self, command: list[str], **environment: str) -> int:
        line = " ".join(command)
        self.commands.append(line)
        self.environments.append(environment)
        return next((code for word, code in self.failing.items() if word in line.split()), 0)


@pytest.fixture
def ready(run: ModuleType, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """Return the file as a module that believes everything to be installed."""
    monkeypatch.setattr(run, "prepare", lambda purpose: None)
    return run


def names_of(requirements: list[str]) -> set[str]:
    return {
        re.sub(r"[-_.]+", "-", re.split(r"[ ;<>=!~\[]", wanted)[0]).lower()
        for wanted in requirements
    }


def lock_lines() -> list[str]:
    lines = (ROOT / "requirements.lock").read_text(encoding="utf-8").splitlines()
    return [line for line in lines if not line.startswith("#")]


def test_run_imports_nothing_but_the_standard_library() -> None:
    tree = ast.parse((ROOT / "run").read_text(encoding="utf-8"))
    imported = {
        name.split(".")[0]
        for node in ast.walk(tree)
        for name in (
            [alias.name for alias in node.names]
            if isinstance(node, ast.Import)
            else [node.module or ""]
            if isinstance(node, ast.ImportFrom)
            else []
        )
    }
    assert imported <= set(sys.stdlib_module_names)
    assert "tomllib" in imported


def test_the_file_can_be_read_by_an_old_python_so_that_it_can_say_so() -> None:
    text = (ROOT / "run").read_text(encoding="utf-8")
    tree = ast.parse(text, feature_version=(3, 7))
    at_top = {
        alias.name for node in tree.body if isinstance(node, ast.Import) for alias in node.names
    }
    assert "tomllib" not in at_top  # it came with 3.11


@pytest.mark.parametrize("version", [(2, 7, 18), (3, 9, 2), (3, 10, 14)])
def test_an_old_python_is_told_in_a_sentence(run: ModuleType, version: tuple[int, ...]) -> None:
    sentence = run.too_old(version)
    assert "needs Python 3.11 or newer" in sentence
    assert ".".join(map(str, version)) in sentence


@pytest.mark.parametrize("version", [(3, 11, 0), (3, 14, 1), (4, 0, 0)])
def test_a_new_python_will_do(run: ModuleType, version: tuple[int, ...]) -> None:
    assert run.too_old(version) == ""


def test_what_is_compiled_is_kept_in_the_venv(
    run: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(run, "ROOT", tmp_path)
    monkeypatch.setattr(run, "VENV", tmp_path / "venv")
    monkeypatch.setenv("PYTHONDONTWRITEBYTECODE", "1")
    (tmp_path / "bevel.py").write_text("ANGLE_DEG = 45.0\n", encoding="utf-8")
    assert run.call([sys.executable, "-c", "import bevel"]) == 0
    assert [file.suffix for file in (tmp_path / "venv").rglob("bevel.*")] == [".pyc"]
    assert not (tmp_path / "__pycache__").exists()


@pytest.mark.parametrize("words", [[], ["dmeo"], ["--version"]])
def test_an_unknown_command_shows_the_commands(words: list[str]) -> None:
    done = subprocess.run(
        [sys.executable, str(ROOT / "run"), *words], capture_output=True, text=True, check=False
    )
    assert done.returncode == 2
    assert "./run demo" in done.stderr
    assert done.stdout == ""


def test_help_names_every_command(run: ModuleType) -> None:
    done = subprocess.run(
        [sys.executable, str(ROOT / "run"), "--help"], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0
    assert [name for name in run.COMMANDS if f"./run {name}" not in done.stdout] == []


def test_the_lock_holds_names_versions_and_markers_only() -> None:
    assert [line for line in lock_lines() if not PINNED.fullmatch(line)] == []
    assert "://" not in (ROOT / "requirements.lock").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "line",
    ["numpy", "numpy>=2", "numpy @ file:///x", "numpy==2.4.6 --hash=sha256:00", "--index x"],
)
def test_a_line_that_may_not_stand_in_the_lock_is_found(line: str) -> None:
    assert not PINNED.fullmatch(line)


def test_the_lock_names_everything_that_the_project_asks_for() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    wanted = [*project["project"]["dependencies"]]
    for group in project["dependency-groups"].values():
        wanted += group
    assert names_of(wanted) - names_of(lock_lines()) == set()


def test_the_demo_installs_no_test_tools(run: ModuleType) -> None:
    (step,) = run.steps(run.DEMO)
    assert step == ["--editable", str(ROOT), "--constraint", str(ROOT / "requirements.lock")]


def test_the_tests_install_the_groups_with_plain_names(run: ModuleType) -> None:
    everything, tables = run.steps(run.TESTS)
    assert names_of(run.groups()["dev"]) <= names_of(everything)
    assert "--group" not in everything  # pip before 25.1 does not know the word
    assert tables[0] == "--no-deps"


def test_nothing_is_installed_twice(run: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    calls = Calls()
    monkeypatch.setattr(run, "make_venv", lambda: None)
    monkeypatch.setattr(run, "call", calls)
    monkeypatch.setattr(run, "installers", lambda: [["uv"], ["pip"]])
    run.prepare(run.TESTS)
    assert len(calls.commands) == 2
    run.prepare(run.TESTS)
    run.prepare(run.DEMO)
    assert len(calls.commands) == 2


def test_the_tests_still_install_after_the_demo(
    run: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls = Calls()
    monkeypatch.setattr(run, "make_venv", lambda: None)
    monkeypatch.setattr(run, "call", calls)
    monkeypatch.setattr(run, "installers", lambda: [["uv"]])
    run.prepare(run.DEMO)
    run.prepare(run.TESTS)
    assert len(calls.commands) == 3


@pytest.mark.parametrize("changed", ["LOCK", "PYPROJECT"])
def test_a_changed_lock_or_pyproject_installs_again(
    run: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, changed: str
) -> None:
    run.stamp(run.DEMO).write_text(run.fingerprint(), encoding="utf-8")
    assert run.installed(run.DEMO)
    other = tmp_path / "other"
    other.write_bytes(getattr(run, changed).read_bytes() + b"\n# one line more\n")
    monkeypatch.setattr(run, changed, other)
    assert not run.installed(run.DEMO)


def test_a_moved_folder_installs_again(
    run: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    run.stamp(run.DEMO).write_text(run.fingerprint(), encoding="utf-8")
    monkeypatch.setattr(run, "ROOT", tmp_path / "elsewhere")
    assert not run.installed(run.DEMO)


def test_pip_takes_over_where_uv_fails(run: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    calls = Calls(uv=2)
    monkeypatch.setattr(run, "make_venv", lambda: None)
    monkeypatch.setattr(run, "call", calls)
    monkeypatch.setattr(run, "installers", lambda: [["uv"], ["pip"]])
    run.prepare(run.DEMO)
    assert [command.split()[0] for command in calls.commands] == ["uv", "pip"]
    assert run.installed(run.DEMO)


def test_a_failed_install_leaves_no_stamp(
    run: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(run, "make_venv", lambda: None)
    monkeypatch.setattr(run, "call", Calls(uv=2, pip=1))
    monkeypatch.setattr(run, "installers", lambda: [["uv"], ["pip"]])
    with pytest.raises(SystemExit) as left:
        run.prepare(run.DEMO)
    assert left.value.code == 1
    assert "Could not install" in capsys.readouterr().err
    assert not run.installed(run.DEMO)


def test_a_python_without_venv_gets_the_hint(
    run: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def no_venv(command: list[str], **_: object) -> subprocess.CompletedProcess[str]:
        return subprocess.CompletedProcess(command, 1, "", "ensurepip is not available")

    monkeypatch.setattr(run.subprocess, "run", no_venv)
    monkeypatch.setattr(run.shutil, "which", lambda name: None)
    with pytest.raises(SystemExit):
        run.make_venv()
    assert "sudo apt install python3-venv" in capsys.readouterr().err


def test_a_broken_venv_is_not_taken_for_a_good_one(run: ModuleType) -> None:
    assert run.works(Path(sys.executable))
    assert not run.works(run.PYTHON)
    run.BIN.mkdir()
    run.PYTHON.write_text("not a program")
    assert not run.works(run.PYTHON)


def test_test_runs_every_check_and_then_pytest(
    ready: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls = Calls()
    monkeypatch.setattr(ready, "call", calls)
    assert ready.main(["test", "-k", "reuse"]) == 0
    assert [re.sub(r".*-m (\w+).*", r"\1", line, count=1) for line in calls.commands[:3]] == [
        "ruff",
        "ruff",
        "mypy",
    ]
    assert "-m pytest -n 2 --dist loadfile" in calls.commands[-1]
    assert calls.commands[-1].endswith("-m not full -k reuse")


@pytest.mark.parametrize(("failing", "code"), [("mypy", 1), ("check", 1), ("pytest", 5)])
def test_any_failure_ends_with_an_exit_code(
    ready: ModuleType, monkeypatch: pytest.MonkeyPatch, failing: str, code: int
) -> None:
    calls = Calls(**{failing: code})
    monkeypatch.setattr(ready, "call", calls)
    assert ready.main(["test"]) == code
    assert "pytest" in calls.commands[-1]
    told = calls.environments[-1]["COUNTERHOOP_FAILED_CHECKS"]
    assert (failing in told) == (failing != "pytest")


def test_prove_runs_the_full_counts_then_every_table(
    ready: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    calls = Calls()
    monkeypatch.setattr(ready, "call", calls)
    monkeypatch.setattr(ready, "ROOT", tmp_path)
    (tmp_path / "benchmarks").mkdir()
    for name in ("speed.py", "growth.py", "_kit.py"):
        (tmp_path / "benchmarks" / name).touch()
    assert ready.main(["prove"]) == 0
    assert "-m full" in calls.commands[0]
    assert [Path(line.split()[-1]).name for line in calls.commands[1:]] == ["growth.py", "speed.py"]
    calls.commands.clear()
    assert ready.main(["bench", "speed"]) == 0
    assert len(calls.commands) == 1
    with pytest.raises(SystemExit):
        ready.main(["bench", "sped"])


def test_a_benchmark_that_fails_is_not_forgotten(
    ready: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(ready, "ROOT", tmp_path)
    (tmp_path / "benchmarks").mkdir()
    first, last = (tmp_path / "benchmarks" / name for name in ("a.py", "b.py"))
    first.touch()
    last.touch()
    monkeypatch.setattr(ready, "call", Calls(**{str(first): 3}))
    assert ready.main(["bench"]) == 3


def skip_check() -> str:
    """Return the small program with which .ci/run looks for skipped tests."""
    return CI.split("<<'PY'\n")[1].split("\nPY\n")[0]


@pytest.mark.parametrize(
    ("cases", "says"),
    [
        ('<testcase classname="a" name="b"/>', None),
        ('<testcase classname="a" name="b"><skipped/></testcase>', "count as failures here: 1"),
        ("", "No test ran"),
    ],
)
def test_skipped_tests_fail_the_build(tmp_path: Path, cases: str, says: str | None) -> None:
    report = tmp_path / "report.xml"
    report.write_text(f"<testsuites><testsuite>{cases}</testsuite></testsuites>")
    done = subprocess.run(
        [sys.executable, "-c", skip_check(), str(report)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == (0 if says is None else 1)
    assert says is None or says in done.stderr
    assert done.stdout == ""
