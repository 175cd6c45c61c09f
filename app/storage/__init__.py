"""Rows in, values out: the only package that writes SQL."""
