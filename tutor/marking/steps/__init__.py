"""The elementary steps that a teacher would write, one a line, and counting with them."""
