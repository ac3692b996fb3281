"""Random shells, and the slow solver that answers are held against."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest


def _beside(name: str) -> ModuleType:
    """Load a module that stands beside this file."""
    spec = importlib.util.spec_from_file_location(
        f"reuse_{name}", Path(__file__).with_name(f"{name}.py")
    )
    assert spec is not None
    assert spec.loader is not None
    module = sys.modules.setdefault(spec.name, importlib.util.module_from_spec(spec))
    spec.loader.exec_module(module)
    return module


# in the order in which they need each other
_BESIDE = {name: _beside(name) for name in ("slow", "sweep", "judge", "random_shells")}


@pytest.fixture(scope="session")
def judge() -> ModuleType:
    """Holds answers against slow solvers."""
    return _BESIDE["judge"]


@pytest.fixture(scope="session")
def sweep() -> ModuleType:
    """The exact sweep of a line."""
    return _BESIDE["sweep"]


@pytest.fixture(scope="session")
def random_shells() -> ModuleType:
    """Makers of random problems by seed."""
    return _BESIDE["random_shells"]
