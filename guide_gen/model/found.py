"""Looking into a folder for what it offers, so that nothing lists kinds or controls by hand."""

import importlib
import pkgutil
from types import ModuleType
from typing import Any


def found_in(package: ModuleType, name: str) -> dict[str, Any]:
    """What each module of a package offers under `name`, by its `word`, in the order of the file names."""
    found = {}
    for module in sorted(entry.name for entry in pkgutil.iter_modules(package.__path__)):
        thing = getattr(importlib.import_module(f"{package.__name__}.{module}"), name)
        found[thing.word] = thing
    return found
