"""Practical exams: what they assess, what examiners record, and how an outcome comes about."""
