"""Truth checks: data drawn with known parameters, and how well each method finds them again."""
