"""A target in, milling motions out: one file per kind of pass."""
