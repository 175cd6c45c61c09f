"""What must be done before a trainee is complete in hours: the requirement set, as values."""
