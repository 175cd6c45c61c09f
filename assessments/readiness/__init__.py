"""Readiness: what the certificate asks for, what is there, and what stands in its way."""
