"""What was typed into a form of the price page and could not be written down."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from counterhoop.errors import BadInput
from counterhoop.web.bench_fault import bench_fault
from counterhoop.web.look.say import capfirst


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """One form as it was sent, and what cannot be read of it.

    Attributes
    ----------
    form : str
        Its id on the page; empty where nothing was refused.
    values : mapping of str to str
        By the names of its fields.
    fault : BadInput, optional
    """

    form: str = ""
    values: Mapping[str, str] = field(default_factory=dict)
    fault: BadInput | None = None

    def value(self, form: str, name: str, otherwise: str = "") -> str:
        """Return what stands in a field: as it was typed, else as it is kept."""
        return self.values.get(name, otherwise) if form == self.form else otherwise

    def wrong(self, form: str, name: str) -> str:
        """Return what is wrong with a field of a form, in words."""
        if self.fault is None or form != self.form or self.fault.where != name:
            return ""
        return self._says

    def besides(self, form: str, *names: str) -> str:
        """Return what is wrong with a form that none of its fields is to be blamed for."""
        if self.fault is None or form != self.form or self.fault.where in names:
            return ""
        return self._says

    def opens(self, form: str) -> bool:
        """Tell whether a form is shown open, for something in it is to be put right."""
        return form == self.form

    @property
    def _says(self) -> str:
        fault = self.fault
        if fault is None:
            return ""
        plain = bench_fault(fault)
        said = BadInput(plain.what, given=plain.given, wanted=plain.wanted, step=plain.step)
        return capfirst(str(said))


NOTHING = Typed()
