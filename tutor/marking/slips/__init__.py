"""Known wrong moves: one of them may have turned the line above into a line that breaks."""
