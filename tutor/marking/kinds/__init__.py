"""Kinds of problem that are not worked in equations: choose, a word, a triangle drawn on paper."""
