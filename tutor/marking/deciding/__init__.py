"""Whether a line follows: what it claims, what is known, and how the two compare."""
