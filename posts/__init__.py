"""Data only: the dialects."""
