"""Tables, the entry log and its projections: the only place that commits."""

from rackside.records.database import Database as Database
from rackside.records.refused import Refused as Refused
