"""Tests of calibration."""
