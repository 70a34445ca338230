"""Cuts, target and report in, pictures out."""
