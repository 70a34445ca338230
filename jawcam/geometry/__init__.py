"""Lines and arcs in, lines and arcs out."""
