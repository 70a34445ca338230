"""A part and its jaws in, the target out."""
