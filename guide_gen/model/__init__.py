"""The nouns that several rooms share, as plain data."""
