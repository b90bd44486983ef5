"""How a toy is driven: one file per control, found by looking into this folder."""

import sys
from functools import cache

from guide_gen.model.found import found_in
from guide_gen.model.kind import Control


@cache
def controls() -> dict[str, Control]:
    """All controls by their word."""
    return found_in(sys.modules[__name__], "CONTROL")
