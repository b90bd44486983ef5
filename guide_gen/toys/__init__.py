"""What a toy is: one file per kind, found by looking into this folder."""

import sys
from functools import cache

from guide_gen.model.found import found_in
from guide_gen.model.kind import Kind


@cache
def kinds() -> dict[str, Kind]:
    """All kinds of toy by their word."""
    return found_in(sys.modules[__name__], "KIND")
