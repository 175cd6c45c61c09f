"""Outgoing mail: what a message is made of, and the conversation with the server that takes it."""
