"""The four gates: what must be known before a reset, a start, leaving it running, and condemning. Source: CHECKS.md."""
