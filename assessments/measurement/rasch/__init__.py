"""The many-facet Rasch model: severities, steps, measures, fit (Linacre 1989, Many-Facet Rasch Measurement)."""
