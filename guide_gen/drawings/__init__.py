"""From a plan to SVG."""
