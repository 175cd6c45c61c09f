"""Words for people."""
