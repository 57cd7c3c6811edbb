"""The student's durable record; the state of a problem, a lesson, a correction."""
