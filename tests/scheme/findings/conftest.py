"""Layouts built by hand, and the two that show each code raised and silent."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

from counterhoop.shell.shop_rules import ShopRules, default_rules


def _beside(name: str) -> ModuleType:
    """Load a module that stands beside this file."""
    spec = importlib.util.spec_from_file_location(
        f"findings_{name}", Path(__file__).with_name(f"{name}.py")
    )
    assert spec is not None
    assert spec.loader is not None
    module = sys.modules.setdefault(spec.name, importlib.util.module_from_spec(spec))
    spec.loader.exec_module(module)
    return module


_SHELLS = _beside("shells")
_LAYOUTS = _beside("layouts")
_SNARES = _beside("layouts_snare")
_SLIPS = _beside("layouts_slips")
_CODES = _beside("codes")


@pytest.fixture(scope="session")
def shells() -> ModuleType:
    """Builders of layouts."""
    return _SHELLS


@pytest.fixture(scope="session")
def layouts() -> ModuleType:
    """Small layouts with one figure that decides."""
    return _LAYOUTS


@pytest.fixture(scope="session")
def snares() -> ModuleType:
    """Small snare drums with one figure that decides."""
    return _SNARES


@pytest.fixture(scope="session")
def codes() -> ModuleType:
    """For each code a layout that raises it and one that does not."""
    return _CODES


@pytest.fixture(scope="session")
def rules() -> ShopRules:
    return default_rules()
