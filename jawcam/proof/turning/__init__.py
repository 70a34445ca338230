"""A lathe's cuts and its target in, a report out; shares no code with what plans."""
