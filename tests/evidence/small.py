"""A reference of three features on two parts, small enough to reckon by hand or by brute force."""

from __future__ import annotations

from counterhoop.evidence.read_reference import check_reference, read_reference
from counterhoop.evidence.reference import Reference

TEXT = """
source = "made up for tests"
[[line]]
family = "Hallmere"
name = "Plain"
from = 1950
from_give = 0.5
to = 1959
to_give = 0.5
[[line]]
family = "Hallmere"
name = "Fancy"
from = 1954
from_give = 0.5
to = 1959
to_give = 0.5
made = 2
[[part]]
name = "badge"
lost_in_fifty_years = 0.3
from_a_donor = 0.4
[[part]]
name = "strainer"
lost_in_fifty_years = 0.6
[[feature]]
name = "badge"
part = "badge"
look = "read it"
[[feature]]
name = "strainer"
part = "strainer"
look = "look at its lever"
[[feature]]
name = "strainer screws"
part = "strainer"
look = "look at their heads"
minutes = 10
[[value]]
family = "Hallmere"
feature = "badge"
name = "round"
to = 1954
to_give = 1
[[value]]
family = "Hallmere"
feature = "badge"
name = "square"
follows = "round"
[[value]]
family = "Hallmere"
feature = "strainer"
name = "wing"
to = 1956
to_give = 1
[[value]]
family = "Hallmere"
feature = "strainer"
name = "lever"
from = 1955
from_give = 1
[[value]]
family = "Hallmere"
feature = "strainer"
name = "guarded lever"
from = 1955
lines = ["Fancy"]
[[value]]
family = "Hallmere"
feature = "strainer screws"
name = "slotted"
to = 1957
to_give = 2
[[value]]
family = "Hallmere"
feature = "strainer screws"
name = "crosshead"
follows = "slotted"
"""


def small_reference() -> Reference:
    return check_reference(read_reference(TEXT, name="small.toml"), name="small.toml")
