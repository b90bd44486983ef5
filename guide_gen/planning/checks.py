"""What all checks of a plan share: where a finding points, what a feed ends at."""

from typing import Protocol

from guide_gen.controls import controls
from guide_gen.model.kind import Control
from guide_gen.model.plan import FusePlan, Load, Sized, WirePlan

Path = tuple[str, ...]


def control_of(sized: Sized) -> Control:
    """The control of a toy."""
    return controls()[sized.control]


class Fed(Protocol):
    """What a feed ends at: a toy, or a distribution block (whose slug is "", since it is no toy)."""

    @property
    def slug(self) -> str: ...
    @property
    def name(self) -> str: ...
    @property
    def units(self) -> str: ...
    @property
    def load(self) -> Load: ...
    @property
    def fuse(self) -> FusePlan: ...
    @property
    def wire(self) -> WirePlan: ...
    @property
    def supply_slug(self) -> str: ...
    @property
    def supply_high_V(self) -> float: ...
