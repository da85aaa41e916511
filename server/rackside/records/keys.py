"""What a column that is searched by keeps of a text. Pure."""

# PostgreSQL's indexes take no texts much longer; documents and bodies keep them whole.
LONGEST_KEY = 200


def key_of(text: str | None) -> str | None:
    """Return the beginning of a text, short enough for an index of several columns."""
    return text and text[:LONGEST_KEY]
