"""Rules, prices and minutes of the file lie over the defaults."""

from __future__ import annotations

from dataclasses import fields

import pytest
from survey_text import read, survey

from counterhoop.errors import BadInput
from counterhoop.shell.operations import default_figures, operations
from counterhoop.shell.shop_rules import ShopRules, default_rules
from counterhoop.shell.survey_file.resolve_shop import rule_names


def test_every_rule_has_a_name_without_its_unit() -> None:
    assert sorted(rule_names().values()) == sorted(field.name for field in fields(ShopRules))
    assert len(rule_names()) == len(fields(ShopRules))


def test_rules_of_the_file_lie_over_the_defaults() -> None:
    # Defaults: common practice, no source.
    assert read(survey()).job.rules == default_rules()
    top = (
        '[rules]\nweb = "1/4 in"\nlean_fixed = "1.5 deg"\nplug_factor = 3\nengaged_diameters = 1.25'
        '\neven_enough = "6 cents"'
    )
    rules = read(survey(top=top)).job.rules
    assert rules.web_mm == pytest.approx(6.35)
    assert (rules.lean_fixed_deg, rules.plug_factor, rules.engaged_diameters) == (1.5, 3.0, 1.25)
    assert rules.even_enough_cents == 6.0
    assert rules.edge_mm == default_rules().edge_mm


@pytest.mark.parametrize("given", ['"8"', "8", '"0 cents"', '"101 cents"', '"1 mm"', '"cents"'])
def test_what_is_no_number_of_cents_is_refused_at_its_place(given: str) -> None:
    with pytest.raises(BadInput, match=r"rules\.even_enough"):
        read(survey(top=f"[rules]\neven_enough = {given}"))


def test_minutes_and_prices_of_the_file_lie_over_the_defaults() -> None:
    top = (
        '[prices]\nhour = "42.50 EUR"\n"Tarn lug" = "11 EUR"\n'
        '[minutes]\n"Drill a hole" = "8 min"\n"glue in a ring" = "1 h 30 min"\n'
        '[cure]\n"glue in a ring" = "12 h"\n"tune a drum" = "30 min"'
    )
    figures = read(survey(top=top)).job.figures
    minutes, cure = dict(figures.minutes), dict(figures.cure_hours)
    assert (figures.currency, figures.hour_minor) == ("EUR", 4250)
    assert figures.prices_minor == (("Tarn lug", 1100),)
    assert (minutes["drill a hole"], minutes["glue in a ring"]) == (8.0, 90.0)
    assert (cure["glue in a ring"], cure["tune a drum"]) == (12.0, 0.5)
    assert minutes["plug a hole"] == dict(default_figures().minutes)["plug a hole"]


def test_operations_are_said_once_each_with_sensible_figures() -> None:
    # Common practice, no source: only the order of size can be checked.
    names = [operation.name for operation in operations()]
    assert len(set(names)) == len(names) >= 20
    for operation in operations():
        assert 1.0 <= operation.minutes <= 240.0
        assert 0.0 <= operation.cure_hours <= 100.0
        assert operation.says
    minutes = dict(default_figures().minutes)
    assert minutes["enlarge a hole"] < minutes["plug a hole"] < minutes["true an edge"]
    assert read(survey()).job.figures == default_figures()
