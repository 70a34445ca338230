"""Data only: sample jobs and their drawings."""
