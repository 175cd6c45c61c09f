"""Evidence and judgement: hours, practicals, measurement, readiness. Pure values and functions."""
