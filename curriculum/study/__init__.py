"""Study: recall questions made from an edition, and when each is asked again."""
