"""A typed line: text to a tree with spans, to an exact meaning."""
