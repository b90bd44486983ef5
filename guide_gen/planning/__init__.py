"""From a description to a plan: sizing that couples several parts, whole-build sums, JSON."""
