"""Cutters, and the speeds and feeds for them."""
