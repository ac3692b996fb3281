"""What fits some holes, at the command line. Truth: the worked job's survey, by hand."""

from __future__ import annotations

from importlib.resources import files

import pytest

SURVEY = files("counterhoop.bench").joinpath("demonstration", "survey.toml")
SNARE = ("--drum", "Old snare", "--hole", 33, "--hole", 34)


def test_the_lost_strainer_goes_on_and_the_later_one_comes_off(run):
    ran = run("fits", SURVEY, *SNARE)
    assert ran.code == 0
    assert "the later strainer stands over this place and comes off for it" in ran.out
    assert "As it is:\n  Corvane lever strainer: hides all but hole 35 and hole 36" in ran.out
    assert "on the shelf" not in ran.out


def test_the_shelf_is_named_where_it_is_asked(run, tmp_path):
    data = ("--data", tmp_path / "data")
    put = ("shelf", "new", "its strainer, oiled", "--kind", "strainer", "--fitting")
    assert run(*put, "Quennick roller strainer", "--bin", "B3", *data).code == 0
    ran = run("fits", SURVEY, *SNARE, *data)
    assert "Quennick roller strainer" in ran.out
    assert "    on the shelf: 1 free in bin B3, number 0001" in ran.out
    # What lies on the shelf is named first.
    assert ran.out.index("Quennick roller") < ran.out.index("Corvane lever")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--drum", "small tom", "--hole", 99), "no such hole on this drum: found 99"),
        (("--drum", "no drum", "--hole", 1), "no drum of that name in the job"),
        ((*SNARE, "--kind", "strainr"), 'Did you mean "strainer"?'),
        ((*SNARE, "--turn", "sideways"), "not a way to stand"),
        ((*SNARE, "--takes", "wide"), "takes"),
    ],
)
def test_what_cannot_be_is_one_line(run, words, said):
    ran = run("fits", SURVEY, *words)
    assert ran.code == 2
    assert said in ran.err
    assert ran.err.count("\n") == 1
