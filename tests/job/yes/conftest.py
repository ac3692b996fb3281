"""Schemes to say yes to: hand-built drums and odd ones by seed, worked out by the planner."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

from counterhoop.errors import BadInput
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.schemes import schemes_for
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.wish import FinishPlan, KitSnare, PutOn, SecondHead

SCHEME = Path(__file__).parents[2] / "scheme"
FEW = (2, 3, 4, 6, 11, 16, 20, 21, 24, 27)
"""Seeds that are worked out soon and come to something of everything but a slot."""


def _there(path: Path) -> ModuleType:
    name = f"yes_{path.stem}"
    spec = importlib.util.spec_from_file_location(name, path)
    assert spec is not None
    assert spec.loader is not None
    module = sys.modules.setdefault(name, importlib.util.module_from_spec(spec))
    spec.loader.exec_module(module)
    return module


_BENCH = _there(SCHEME / "conftest.py")
_DRUMS = _there(SCHEME / "whole" / "random_drums.py")
book, rules, shop, bench = _BENCH.book, _BENCH.rules, _BENCH.shop, _BENCH.bench


@pytest.fixture(
    scope="session",
    params=[
        pytest.param(FEW, id="few"),
        pytest.param(range(60), id="many", marks=pytest.mark.full),
    ],
)
def schemes(request, bench, shop) -> tuple[Scheme, ...]:
    """Every scheme of some drums, those set aside with them."""
    wanted = [
        DrumWanted(drum=bench.case_a(), wishes=(SecondHead(),), finish=FinishPlan()),
        DrumWanted(
            drum=bench.case_d(),
            wishes=(PutOn(fitting="Varlow new strainer", replaces="strainer"),),
            finish=FinishPlan(),
        ),
        *(_DRUMS.random_wanted(seed, bench=bench) for seed in request.param),
    ]  # fmt: skip
    found: list[Scheme] = []
    for one in wanted:
        try:
            found += schemes_for(one, shop=shop).every
        except BadInput:  # two wishes by chance may contradict each other
            continue
    assert len(found) > 25
    assert any(isinstance(wish, KitSnare) for one in wanted for wish in one.wishes)
    return tuple(found)
