"""What went wrong or nearly did, and what was withdrawn or changed for it."""
