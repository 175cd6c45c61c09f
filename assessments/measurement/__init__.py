"""Agreement, reliability and cut scores: one method a file, with its source."""
