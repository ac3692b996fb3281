"""The first field of a form is where writing begins."""

from __future__ import annotations

import re

from markupsafe import Markup

_FIELD = re.compile(r"<(input type=\"text\"|select|textarea)")


def focus_first(form: Markup, by: str) -> Markup:
    """Return a form of ours whose first field is reached at once.

    Parameters
    ----------
    by : str
        The attribute that says so: "autofocus" for a page that is loaded, "data-reach" for a part
        of one, of which our own script takes care.

    Examples
    --------
    >>> focus_first(Markup('<label>Along</label><input type="text" name="along">'), "autofocus")
    Markup('<label>Along</label><input type="text" autofocus name="along">')
    """
    return Markup(_FIELD.sub(rf"<\1 {by}", str(form), count=1))
