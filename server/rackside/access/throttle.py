"""Slow down guessing: a bounded number of failures a minute for one name."""

import threading
import time
from collections import defaultdict, deque

from rackside.records import Refused


class Throttle:
    """Counts failures by name in this process."""

    def __init__(self, limit: int, seconds: float) -> None:
        self._limit = limit
        self._seconds = seconds
        self._failures: defaultdict[str, deque[float]] = defaultdict(deque)
        self._lock = threading.Lock()

    def check(self, name: str) -> None:
        """Refuse when the name failed too often lately."""
        with self._lock:
            failures = self._recent(name)
            if len(failures) >= self._limit:
                wait = max(1, round(self._seconds - (time.monotonic() - failures[0])))
                raise Refused("slow_down", "Too many wrong passwords for this name.", retry_after=wait)

    def count(self, name: str) -> None:
        with self._lock:
            self._recent(name).append(time.monotonic())

    def _recent(self, name: str) -> deque[float]:
        oldest = time.monotonic() - self._seconds
        for other in [one for one, times in self._failures.items() if not times or times[-1] < oldest]:
            del self._failures[other]
        failures = self._failures[name]
        while failures and failures[0] < oldest:
            failures.popleft()
        return failures
