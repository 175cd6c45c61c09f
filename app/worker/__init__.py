"""Work that outlives a request: mail on its way, season pictures, reminders, the daily root and the nightly audits."""
