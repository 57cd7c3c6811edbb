"""Verdicts, the both-sides account, witnesses, and the state of a piece of work."""
