"""What a trainee asks of the school, and how it ends."""
