"""Work that outlives a request: mail on its way, season pictures, reminders."""
