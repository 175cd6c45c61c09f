"""Which plans of an examination are worked out for a season."""

MOST_EXAMINERS, MOST_BLOCKS = 4, 12
