"""An unknown part asked for at the command line. Truth: the packaged book's figures, by hand."""

from __future__ import annotations

import pytest


def test_three_readings_name_the_lug_and_two_do_not(run):
    two = run("unknown", "holes apart 42.1", "24 tpi", "--kind", "lug", "--seen", "brass")
    assert two.code == 0
    assert "It could be Corvane round lug; it could also be Corvane round bass lug." in two.out
    assert "Next: Measure its base from end to end." in two.out
    three = run("unknown", "lug", "holes apart 42.1", "base high 61.8 mm", "24 tpi")
    assert "It is almost surely Corvane round bass lug." in three.out
    assert "base high 61.8 mm: 0.2 mm less than its 62.0 mm" in three.out
    inches = run("unknown", "holes apart 1.657", "base high 2.433", "--kind", "lug", "--inches")
    assert "It is almost surely Corvane round bass lug." in inches.out


def test_a_threads_name_is_a_reading(run):
    """M6 has a pitch of 1 mm (ISO 724), 12-24 one of 24 to the inch (ASME B1.1)."""
    for name, pitch in (("M6", "1.00 mm"), ("12-24", "1.06 mm, 24 to the inch")):
        ran = run("unknown", name, "--kind", "rod")
        assert (ran.code, ran.err) == (0, "")
        assert f"pitch {pitch}" in ran.out.splitlines()[0]
    ran = run("unknown", "rod 12-24 x 42 mm")
    assert "length 42 mm" in ran.out
    # 7/32-24 has the same pitch and is but 0.07 mm larger.
    assert "It is almost surely rod 12-24 x 42 mm" in ran.out


def test_what_no_caliper_tells_apart_is_not_to_be_measured(run):
    """7/32 in is 5.56 mm, No. 12 is 5.49 mm: nearer than a caliper tells on a worn rod."""
    ran = run("unknown", "24 tpi", "length 42 mm", "--kind", "rod")
    assert "Next:" not in ran.out
    both = "rod 12-24 x 42 mm", "rod 7/32-24 x 42 mm"
    assert ran.out.rstrip().endswith("can't be told apart by measuring.")
    assert all(one in ran.out.splitlines()[-1] for one in both)
    assert "Next: Measure its length" in run("unknown", "24 tpi", "--kind", "rod").out


def test_a_piece_of_the_shelf_answers_only_where_the_shelf_is_asked(run, tmp_path):
    odd = ("holes apart 47.5 mm", "base high 71.0 mm", "stands out 9.0 mm")
    data = ("--data", tmp_path / "data")
    measured = [word for one in odd for word in ("--measured", one)]
    assert run("shelf", "new", "flat lug, blue box", "--kind", "lug", *measured, *data).code == 0
    alone = run("unknown", *odd, "--kind", "lug")
    assert "It is almost surely none of the book, most like" in alone.out
    assert "the shelf" not in alone.out
    with_shelf = run("unknown", *odd, "--kind", "lug", *data)
    assert "It is almost surely flat lug, blue box." in with_shelf.out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("fish 3",), "neither a measurement nor a kind of part"),
        (("mass 12 mm",), "is not a unit of weight"),
        (("holes apart 42.1", "--kind", "lugg"), 'Did you mean "lug"?'),
        (("holes apart 42.1", "holes apart 43"), "holes apart was said before, 42.1"),
    ],
)
def test_what_cannot_be_read_is_one_line(run, words, said):
    ran = run("unknown", *words)
    assert (ran.code, ran.out, ran.err.count("\n")) == (2, "", 1)
    assert said in ran.err
