"""What a teacher must be able to do with each exercise."""
