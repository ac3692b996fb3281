"""Headers and what they are taken for: hand-worked, in the words that shelves are headed with."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.evidence.read_reference import make_reference
from counterhoop.parts.dimension import Dimension
from counterhoop.parts.rows.dry_run import dry_run
from counterhoop.parts.rows.layout import Hint
from counterhoop.parts.rows.mapping import map_columns
from counterhoop.parts.rows.open_sheet import open_sheet
from counterhoop.parts.rows.reference_layout import serials_layout, values_layout
from counterhoop.parts.rows.row import letters
from counterhoop.parts.rows.shelf_layout import shelf_layout
from counterhoop.parts.rows.xlsx_rows import column_of

SHELF = shelf_layout()


@pytest.mark.parametrize(
    ("header", "field", "unit", "instrument"),
    [
        ("Number", "number", "", ""),
        ("No.", "number", "", ""),
        ("Qty", "count", "", ""),
        ("HOLES APART", "holes apart", "", ""),
        ("holes_apart", "holes apart", "", ""),
        ("Holes apart (mm)", "holes apart", "mm", ""),
        ("holes apart [in]", "holes apart", "in", ""),
        ("length in inches", "length", "in", ""),
        ("length, mm", "length", "mm", ""),
        ("length (mm, rule)", "length", "mm", "rule"),
        ("pitch (tpi)", "pitch", "tpi", ""),
        ("Weight (g)", "mass", "g", ""),
        ("price (gbp)", "price", "GBP", ""),
        ("ears' circle", "ears' circle", "", ""),
        ("materail", "material", "", ""),
        ("Description", "says", "", ""),
    ],
)
def test_a_header_is_understood(header, field, unit, instrument):
    (column,) = map_columns((header,), SHELF).columns
    assert (column.field.name, column.hint.unit, column.hint.instrument) == (
        field,
        unit,
        instrument,
    )


def test_a_near_miss_is_said_and_what_is_not_read_too():
    found = map_columns(("number", "platting", "bought by", ""), SHELF)
    assert found.says == (
        'Column B, "platting", is taken for "plating".',
        'Not read: column C "bought by".',
    )
    assert (found.left_out, found.missing) == ((2, 3), ("kind",))


def test_a_person_may_choose_otherwise():
    header = ("number", "kind", "x", "length")
    found = map_columns(header, SHELF, chosen={2: "says", 3: ""}, units={})
    assert [one.field.name for one in found.columns] == ["number", "kind", "says"]
    unit = map_columns(header, SHELF, units={3: "in"})
    assert unit.columns[-1].hint.unit == "in"
    data = b"number,kind,x,length\nA1,lug,,1 1/2\n"
    (new,) = dry_run(open_sheet(data, where="x"), unit, SHELF, kept={}.get).new
    assert new.values["length"][0].value == pytest.approx(38.1)


@pytest.mark.parametrize(
    ("choosing", "says"),
    [
        ({"chosen": {0: "bin", 1: "bin"}}, 'row 1, column B "kind": column A is taken for "bin"'),
        ({"chosen": {0: "bni"}}, 'Did you mean "bin"'),
        ({"chosen": {7: "bin"}}, "there is no such column"),
        ({"units": {1: "mm"}}, 'row 1, column B "kind": no unit of "kind"'),
    ],
)
def test_a_choice_that_makes_no_sense_is_refused(choosing, says):
    with pytest.raises(BadInput) as fault:
        map_columns(("number", "kind"), SHELF, **choosing)
    assert says in str(fault.value)


def test_every_dimension_has_a_column_and_no_header_means_two():
    names = [each.name for each in SHELF.fields]
    assert set(names) >= {one.value for one in Dimension}
    words = [word for each in SHELF.fields for word in (each.name, *each.words)]
    assert len(words) == len(set(words))
    for each in SHELF.fields:
        for word in (each.name, *each.words):
            (column,) = map_columns((word,), SHELF).columns
            assert column.field is each, word


def test_column_letters_go_both_ways():
    assert [column_of(letters(number)) for number in range(20_000)] == list(range(20_000))


def rows_of(text: str, layout):
    sheet = open_sheet(text.encode(), where="reference")
    run = dry_run(sheet, map_columns(sheet.header, layout), layout, kept={}.get)
    return [dict(new.values) for new in run.new], [one.says for one in run.refused]


def test_the_reference_is_read_as_its_own_file_would_have_it():
    """The rows go into the reference's own reader, which checks every word of them."""
    forms, refused = rows_of(
        "family;feature;name;from;from give or take;to;lines;sizes (in);source\n"
        "Corvane;badge;round;1948;2;1957;Standard; 14; 16 in;a catalogue\n".replace("; 16", "")
        + "Corvane;badge;shield;1957;1;;;;a dated drum\n",
        values_layout(),
    )
    assert refused == []
    serials, refused = rows_of(
        "family,number,year,give or take,source\nCorvane,B 10432,1957,1,a receipt\n",
        serials_layout(),
    )
    assert refused == []
    made = make_reference({"value": forms, "serial": serials}, name="sheet")
    assert [(one.name, one.begins.year, one.lines) for one in made.values] == [
        ("round", 1948.0, ("Standard",)),
        ("shield", 1957.0, ()),
    ]
    assert made.values[0].diameters_mm == pytest.approx((355.6,))
    assert made.values[0].begins.give == 2.0
    assert (made.serials[0].number, made.serials[0].give) == (10432, 1.0)


@pytest.mark.parametrize(
    ("cells", "says"),
    [
        ("Corvane,badge,round,1950s,x", 'row 2, column D "from": not one year'),
        ("Corvane,badge,round,about 1950,x", 'row 2, column D "from": not one year'),
        ("Corvane,badge,round,1234,x", 'row 2, column D "from": a year that cannot be'),
        ("Corvane,badge,round,1950,", 'row 2, column E "source": this is missing'),
        ("Corvane,,round,1950,x", 'row 2, column B "feature": this is missing'),
    ],
)
def test_a_row_of_the_reference_is_refused_by_row_and_column(cells, says):
    made, refused = rows_of(f"family,feature,name,from,source\n{cells}\n", values_layout())
    assert made == []
    assert len(refused) == 1
    assert refused[0].startswith(says)


near_figures = st.text("0123456789.,-/ %±()mintpg\"'eE½;:£", max_size=30)


@pytest.mark.parametrize("layout", [SHELF, values_layout(), serials_layout()], ids=lambda x: x.name)
@given(text=st.text(min_size=1, max_size=40) | near_figures | st.just("9" * 2_000), data=st.data())
def test_any_text_is_read_or_refused_with_one_line(layout, text, data):
    """An exact law: no cell makes anything else happen, whatever column it stands in."""
    for field in layout.fields:
        unit = data.draw(st.sampled_from(("", *field.units)))
        try:
            value = field.read(text, Hint(unit=unit))
        except BadInput as fault:
            refused = str(fault)
        else:
            assert field.same(value, value)
            continue
        assert "\n" not in refused
