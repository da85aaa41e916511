"""The invented co-operative: a year of visits and today's open call, loaded through the public API."""

from .loading import Loaded, load
from .people import PEOPLE, Person

__all__ = ["PEOPLE", "Loaded", "Person", "load"]
