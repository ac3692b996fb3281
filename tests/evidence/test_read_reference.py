"""The reference file: what is refused, in one line that says where; and one laid over another."""

from __future__ import annotations

import pytest
from small import TEXT, small_reference

from counterhoop.errors import BadInput
from counterhoop.evidence.ground import ground_of
from counterhoop.evidence.read_reference import (
    check_reference,
    packaged_reference,
    read_reference,
)

BADGE = '[[value]]\nsource = "x"\nfamily = "F"\nfeature = "badge"\n'


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[[line", "not TOML"),
        ("[[lines]]", '"lines" is not known here'),
        ("[line]\nname = 'x'", "double brackets"),
        ('[[line]]\nfamily = "F"\nname = "N"\nfrom = 1950', "source: this is missing"),
        ('[[line]]\nsource = "x"\nname = "N"\nfrom = 1950', "family: this is missing"),
        ('[[line]]\nsource = "x"\nfamily = "F"\nname = "N"', "from: this is missing"),
        ('[[line]]\nsource = "x"\nfamily = "F"\nname = "N"\nfrom = "c. 1950"', "from: cannot"),
        ('[[line]]\nsource = "x"\nfamily = "F"\nname = "N"\nfrom = 195', "1500"),
        ('[[line]]\nsource = "x"\nfamily = "F"\nname = "N"\nfrom = nan', "cannot be used"),
        ('[[line]]\nsource = "x"\nfamily = "F"\nname = "N"\nfrom = 1960\nto = 1950', "before it"),
        ('[[line]]\nsource = "x"\nfamily = "F"\nname = "N"\nfrom = 1960\nof = 1', "no such"),
        ('[[part]]\nsource = "x"\nname = "hoops"\nlost_in_fifty_years = 35', "cannot be used"),
        ('[[part]]\nsource = "x"\nname = "hoops"', "lost_in_fifty_years: this is missing"),
        (BADGE + 'name = "a"\nfrom_give = -1', "cannot be used"),
        (BADGE + 'name = "a"\n' + BADGE + 'name = "a"', "two rows have this name"),
        (BADGE + 'name = "a"\nfollows = "b"', "has this name and an end"),
        (BADGE + 'name = "b"\n' + BADGE + 'name = "a"\nfollows = "b"', "has this name and an end"),
        (BADGE + 'name = "a"\nfrom = 1950\nfollows = "a"', 'it says "from" too'),
        (
            BADGE + 'name = "a"\nto = 1950\nfollows = "b"\n'
            + BADGE + 'name = "b"\nto = 1955\nfollows = "a"',
            "follows itself",
        ),
        (
            BADGE + 'name = "a"\nfollows = "b"\n' + BADGE + 'name = "b"\nto = 1955\nfollows = "c"',
            "value b.follows: no value",
        ),
        (
            BADGE + 'name = "a"\nto = 1950\n' + BADGE + 'name = "b"\nto = 1949\nfollows = "a"',
            "value b.to: it ends before it begins: it follows “a”: found '1951 to 1949'",
        ),
        (BADGE + 'name = "a"\ndiameters = ["14"]', "unit"),
        ('[[serial]]\nsource = "x"\nfamily = "F"\nnumber = "12/B"\nyear = 1950', "serial number"),
        ('[[serial]]\nsource = "x"\nfamily = "F"\nnumber = 12\nyear = 1950', "cannot be used"),
    ],
)  # fmt: skip
def test_a_row_that_cannot_be_used_is_refused_in_one_line(text: str, says: str) -> None:
    with pytest.raises(BadInput) as refused:
        read_reference(text, name="mine.toml")
    assert says in str(refused.value)
    assert str(refused.value).startswith("mine.toml")
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('part = "badge"', 'part = "bagde"', 'Did you mean "badge"'),
        ('feature = "strainer"\nname = "wing"', 'feature = "trainer"\nname = "wing"', "feature"),
        ('lines = ["Fancy"]', 'lines = ["Fncy"]', 'Did you mean "Fancy"'),
        (
            'family = "Hallmere"\nfeature = "badge"',
            'family = "Halmere"\nfeature = "badge"',
            "family",
        ),
    ],
)
def test_a_name_that_leads_nowhere_is_refused(old: str, new: str, says: str) -> None:
    changed = TEXT.replace(old, new)
    assert changed != TEXT
    with pytest.raises(BadInput, match=r"mine\.toml") as refused:
        check_reference(read_reference(changed, name="mine.toml"), name="mine.toml")
    assert says in str(refused.value)


def test_one_s_own_rows_take_the_place_of_those_beneath() -> None:
    mine = read_reference(
        'source = "our own"\n[[value]]\nfamily = "Hallmere"\nfeature = "badge"\nname = "round"\n'
        'to = 1957\n[[value]]\nfamily = "Hallmere"\nfeature = "badge"\nname = "oval"\n',
        name="mine.toml",
    )
    both = check_reference(mine.over(small_reference()), name="mine.toml")
    badges = {one.name: one for one in both.values if one.feature == "badge"}
    assert set(badges) == {"round", "square", "oval"}
    assert badges["round"].ends is not None
    assert (badges["round"].ends.year, badges["round"].source) == (1957.0, "our own")
    assert len(both.values) == len(small_reference().values) + 1


@pytest.mark.parametrize(
    ("to", "says"),
    [
        ("", "value round.to: “square” took over when it ended, so that it has a last year"),
        ("to = 1990", "“square” took over when it ended, and would end before it begins"),
    ],
)
def test_what_others_follow_ends_before_they_do(to: str, says: str) -> None:
    beneath = TEXT.replace('follows = "round"', 'follows = "round"\nto = 1960')
    mine = read_reference(
        'source = "our own"\n[[value]]\nfamily = "Hallmere"\nfeature = "badge"\n'
        f'name = "round"\n{to}',
        name="mine.toml",
    )
    with pytest.raises(BadInput) as refused:
        check_reference(mine.over(read_reference(beneath, name="x")), name="mine.toml")
    assert says in str(refused.value)


def test_the_packaged_reference_is_whole_and_names_its_source() -> None:
    reference = packaged_reference()
    rows = (*reference.lines, *reference.parts, *reference.features, *reference.values)
    assert all("invented" in row.source for row in (*rows, *reference.serials))
    for family in reference.families:
        assert ground_of(reference, family=family, looked_at=2026).features


def test_a_value_of_some_sizes_is_not_looked_for_on_others() -> None:
    reference = packaged_reference()
    of_it = {
        size: ground_of(
            reference, family="Corvane", looked_at=2026, line="Concert", diameter_mm=25.4 * size
        ).features["lug"].names
        for size in (13, 14)
    }  # fmt: skip
    assert ("long" in of_it[14], "long" in of_it[13]) == (True, False)


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"family": "Corvan", "looked_at": 2026}, 'Did you mean "Corvane"'),
        ({"family": "Corvane", "looked_at": 2026, "line": "Concrt"}, 'Did you mean "Concert"'),
        ({"family": "Corvane", "looked_at": 1900}, "year of looking"),
        ({"family": "Corvane", "looked_at": 20260}, "year of looking"),
    ],
)
def test_a_drum_that_the_reference_does_not_know_is_refused(asked: dict, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        ground_of(packaged_reference(), **asked)
