"""Every change of the tables, one step each."""
