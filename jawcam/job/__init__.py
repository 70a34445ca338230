"""A job file in, a frozen job out."""
