"""Lesson text to a Lesson; its audit."""
