"""Names of threads in the spellings of drawings, boxes and letters."""

from __future__ import annotations

import pytest

from counterhoop.errors import BadInput
from counterhoop.quantities.thread_name import parse_thread_name


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("12-24 UNC", "12-24 UNC"),
        ("12-24", "12-24"),
        ("12 – 24", "12-24"),
        ("#12-24unc", "12-24 UNC"),
        ("No. 12 - 24 UNC-2A", "12-24 UNC"),
        ("10-24 NC", "10-24 UNC"),
        ("8x32", "8-32"),
        ("1/4-20", "1/4-20"),
        ('1/4"-20 UNC', "1/4-20 UNC"),
        ("1/4 in - 20", "1/4-20"),
        ("¼-20", "1/4-20"),
        (".25-20", "1/4-20"),
        ("7/32-24", "7/32-24"),
        ("M6", "M6"),
        ("m6x1", "M6x1"),
        ("M6 x 0.75", "M6x0.75"),
        ("M6×0,75", "M6x0.75"),
        ("M6-1.0", "M6x1"),
        ("M6-6g", "M6"),
        ("3/16 bsw", "3/16 BSW"),
        ("7/32 Whit", "7/32 BSW"),
        ("2 BA", "2BA"),
        ("2B.A.", "2BA"),
    ],
)
def test_one_spelling(text: str, name: str) -> None:
    assert parse_thread_name(text) == name
    assert parse_thread_name(name) == name


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("12/24", '"12-24" for number 12'),
        ("8/32", '"8-32" for number 8'),
        ("7/32", '"7/32-24"'),
        ("1/4", '"1/4-24"'),
        ("12", "threads to the inch"),
        ("6mm", '"M6" if it is a metric thread'),
        ("6 mm x 1", '"M6x1" if it is a metric thread'),
        ("8/32-24", "lowest terms"),
        ("14-20", "no number 14 screw"),
        ("7-32", "no number 7 screw"),
        ("1/3-20", "no screw is sized so"),
        ("1/0-20", "fraction of nothing"),
        ("M", "cannot be read"),
        ("M0", "cannot be read"),
        ("M6x0", "cannot be read"),
        ("1/4-0", "cannot be read"),
        ("thread", "cannot be read"),
        ("", "nothing is written"),
        (12, "in quotes"),
    ],
)
def test_refuses_with_what_to_write(text: object, says: str) -> None:
    with pytest.raises(BadInput) as caught:
        parse_thread_name(text, where="rod.thread")
    assert says in str(caught.value)
    assert str(caught.value).startswith("rod.thread: ")
