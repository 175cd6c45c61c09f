"""The shell: web, database, files, clock and chance meet the pure packages here."""
