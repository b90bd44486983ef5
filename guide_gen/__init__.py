"""Turns one YAML description of a cabinet's toys into guides to wire, mount and tune them."""

__version__ = "0.1.0"
