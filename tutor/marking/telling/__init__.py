"""What is said of a line: the account of both sides, the witness, the changed part, why it breaks."""
