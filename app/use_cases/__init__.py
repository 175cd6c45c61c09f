"""What people do: load, decide, store, commit. None calls another."""
