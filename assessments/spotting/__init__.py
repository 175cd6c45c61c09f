"""Fault spotting: described lessons with planted faults, and what can be said of an observer's eye."""
