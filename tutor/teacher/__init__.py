"""What a teacher asks for: the answer key, the report."""
