"""Cuts and a target in, a report out; shares no code with what plans."""
