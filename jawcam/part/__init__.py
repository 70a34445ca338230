"""Drawings in, exact outlines out."""
