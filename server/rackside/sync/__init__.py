"""Applying entries that phones and other software send: pure decisions, thin writes."""
