"""Numbers as their sources print them."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest


@pytest.fixture
def printed() -> Callable[[str], Any]:
    """``printed("0.43")`` equals whatever rounds to 0.43: half of the last printed place is its tolerance."""

    def as_printed(text: str) -> Any:
        exact = Decimal(text)
        half_of_last_place = Decimal(5).scaleb(int(exact.as_tuple().exponent) - 1)
        return pytest.approx(float(exact), rel=0, abs=float(half_of_last_place) * (1 + 1e-9))

    return as_printed
