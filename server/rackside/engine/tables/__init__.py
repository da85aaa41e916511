"""Numbers only, each module from a named source."""
