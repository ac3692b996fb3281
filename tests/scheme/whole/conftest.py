"""Odd drums by seed, and the geometry that schemes are judged by."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest


def _beside(name: str) -> ModuleType:
    """Load a module that stands beside this file."""
    spec = importlib.util.spec_from_file_location(
        f"whole_{name}", Path(__file__).with_name(f"{name}.py")
    )
    assert spec is not None
    assert spec.loader is not None
    module = sys.modules.setdefault(spec.name, importlib.util.module_from_spec(spec))
    spec.loader.exec_module(module)
    return module


_DRUMS = _beside("random_drums")
_SKIN = _beside("skin")


@pytest.fixture(scope="session")
def drums() -> ModuleType:
    return _DRUMS


@pytest.fixture(scope="session")
def skin() -> ModuleType:
    return _SKIN
