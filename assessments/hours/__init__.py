"""Sessions as evidence: what each minute earns, and the least time that is still to be put in."""
