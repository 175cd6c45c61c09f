"""Reading and writing files: YAML, CSV, PDF."""
