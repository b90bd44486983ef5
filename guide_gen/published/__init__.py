"""Tables from standards and handbooks: one CSV each, its source in its head."""
