"""Text in, cuts out; shares no code with what writes."""
