"""How near an examiner comes to the reference scores of described performances."""
