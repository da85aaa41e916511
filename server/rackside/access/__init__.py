"""People, their phones and sessions, keys of other software, and what each may do."""
