"""Neutral motions, and the rewrites that weak controls need."""
