"""The judge: the same files run on the server and in the phone's worker.

Nothing here opens a file, reads a clock or imports anything but math, json and itself.
"""

VERSION = "1.0.0"
RULES = "2026-11"
