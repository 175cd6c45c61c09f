"""Certificates that anyone can check: the credential, its signature, the list that revokes, and what a check says."""
