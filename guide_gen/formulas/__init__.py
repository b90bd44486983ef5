"""Pure functions on plain floats in SI, one file per subject; no YAML, no pages."""
