"""What pages share: the visit, permissions at the door, forms, errors and templates."""
