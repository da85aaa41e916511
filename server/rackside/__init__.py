"""Rackside: what a compressor told its technician, judged on the phone and again on the server."""

__version__ = "0.1.0"
