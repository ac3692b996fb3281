"""Forms made from the vocabulary of the survey file and of the fittings book."""

from counterhoop.web.forms.body import item_at, spots_in, with_item, without_item
from counterhoop.web.forms.faults_at import (
    Spot,
    fault_words,
    faults_in,
    faults_under,
    spot_in_drum,
    spot_of,
)
from counterhoop.web.forms.fields import Field, Form, Group, Option
from counterhoop.web.forms.make_form import make_form
from counterhoop.web.forms.offers import offers_of
from counterhoop.web.forms.read_form import MOST_FIELDS, NAME, read_form, read_name
from counterhoop.web.forms.things import THINGS, Thing

__all__ = [
    "MOST_FIELDS",
    "NAME",
    "THINGS",
    "Field",
    "Form",
    "Group",
    "Option",
    "Spot",
    "Thing",
    "fault_words",
    "faults_in",
    "faults_under",
    "item_at",
    "make_form",
    "offers_of",
    "read_form",
    "read_name",
    "spot_in_drum",
    "spot_of",
    "spots_in",
    "with_item",
    "without_item",
]
