"""Quantities, ranges and worked values: units live here and nowhere further in."""
