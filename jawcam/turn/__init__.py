"""A turned part's target in, turning motions out."""
