"""Motions and a dialect in, text out."""
