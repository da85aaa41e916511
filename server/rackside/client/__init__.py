"""A typed client of the HTTP API, for other software: `from rackside.client import Rackside`."""

from rackside.client.answers import Call as Call
from rackside.client.answers import Delivery as Delivery
from rackside.client.answers import Entry as Entry
from rackside.client.answers import EntryResult as EntryResult
from rackside.client.answers import Finding as Finding
from rackside.client.answers import Imported as Imported
from rackside.client.answers import Machine as Machine
from rackside.client.answers import Result as Result
from rackside.client.answers import Results as Results
from rackside.client.answers import Webhook as Webhook
from rackside.client.connection import EntryRefused as EntryRefused
from rackside.client.connection import RacksideError as RacksideError
from rackside.client.shop import Rackside as Rackside
