"""What must be learnt: the repertoire, plans made from it, and requirement sets. Pure values and functions."""
