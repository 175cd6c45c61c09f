"""What is computed from an edition: time, transitions, plans and springs."""
