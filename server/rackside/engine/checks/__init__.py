"""One check, one file; the host passes the file names to entry.load."""
