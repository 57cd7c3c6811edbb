"""Judging a line: the ways in which it can follow, and what is known after it."""
