"""The scripts of the documentation, as modules, and its pages."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

DOCS = Path(__file__).parents[2] / "docs"
# The scripts name each other, as they do when one is run.
sys.path[:0] = [str(DOCS), str(DOCS / "pictures")]


def script(path: str) -> ModuleType:
    name = "docs_" + path.removesuffix(".py").replace("/", "_")
    spec = importlib.util.spec_from_file_location(name, DOCS / path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def docs() -> Path:
    return DOCS


@pytest.fixture(scope="session")
def reference() -> ModuleType:
    return script("reference/make.py")


@pytest.fixture(scope="session")
def diagrams() -> ModuleType:
    return script("pictures/diagrams.py")


@pytest.fixture(scope="session")
def make_pages() -> ModuleType:
    return script("make_pages.py")


@pytest.fixture(scope="session")
def app() -> ModuleType:
    return script("pictures/app.py")


@pytest.fixture(scope="session")
def heard() -> ModuleType:
    return script("make_heard.py")


@pytest.fixture(scope="session")
def sure() -> ModuleType:
    return script("make_sure.py")


@pytest.fixture(scope="session")
def promised() -> ModuleType:
    return script("make_promise.py")
