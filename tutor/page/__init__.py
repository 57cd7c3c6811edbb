"""Everything Textual: one screen or widget per file."""
