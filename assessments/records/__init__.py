"""The record that shows every change: a tree of hashes over its events, and proofs that need nothing else."""
