"""Evenline: an offline tutor that checks each line of a solution against the line above."""

__version__ = "0.1.0"
