"""What the audit of a lesson looks at: each draw of a problem, and how the problem is written."""
