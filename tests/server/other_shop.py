"""Another shop's software, as its own makers would write it: it knows the API's page and nothing of our code.

It dispatches calls, learns by webhook that they came back, pulls the verdicts, and claims for each condemned machine.
Run: python other_shop.py SERVER_URL KEY; it prints one JSON line for each thing it does and ends with its input.
"""

import json
import sys
import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

from standardwebhooks import Webhook, WebhookVerificationError

from rackside.client import Rackside

EVENTS = ["call.submitted", "call.reviewed", "gate.overruled", "machine.condemned", "watch.due"]
Json = dict[str, Any]


def say(what: str, **told: Any) -> None:
    print(json.dumps({"did": what, **told}), flush=True)


class Shop:
    """What the other program does at each event."""

    def __init__(self, server: Rackside) -> None:
        self.server = server
        self.seen: set[str] = set()
        self.secret = ""

    def dispatch(self, site: str, tag: str, complaint: str, reported: str) -> None:
        """Open a call on a machine that the register knows."""
        machine = next(one for one in self.server.machines() if one["tag"] == tag and one["site"]["name"] == site)
        call = self.server.entry("call", {"machine": machine["id"], "complaint": complaint, "reported": reported})
        self.server.keep(call)
        say("dispatched", call=call["id"])

    def take(self, body: bytes, headers: dict[str, str]) -> int:
        """Check a message, act on it once, and return the status to answer."""
        try:
            message = Webhook(self.secret).verify(body, headers)
        except WebhookVerificationError:
            say("refused a message that is not signed")
            return 401
        if headers["webhook-id"] not in self.seen:
            self.seen.add(headers["webhook-id"])
            self.act(message["type"], message["data"])
        return 204

    def act(self, event: str, data: Json) -> None:
        if event == "machine.condemned":
            results = self.server.results(data["call"])
            causes = [cause["cause"] for cause in results["result"]["causes"][:1]]
            say("filed a claim", call=data["call"], leading=causes, csv=len(self.server.results_csv(data["call"])))
        else:
            state = self.server.call(data["call"])["state"]
            say(event, call=data["call"], state=state, machine=data["machine"]["tag"])


def listening(shop: Shop) -> str:
    """Listen for messages and return the address to send them to."""

    class Handler(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            body = self.rfile.read(int(self.headers["content-length"]))
            self.send_response(shop.take(body, {name.lower(): value for name, value in self.headers.items()}))
            self.end_headers()

        def log_message(self, *_told: Any) -> None:
            pass

    receiver = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    threading.Thread(target=receiver.serve_forever, daemon=True).start()
    return f"http://127.0.0.1:{receiver.server_port}/rackside"


def main(url: str, key: str) -> None:
    with Rackside(url, key) as server:
        shop = Shop(server)
        address = listening(shop)
        shop.secret = server.add_webhook(address, EVENTS, note="the other shop")["secret"]
        say("listening", address=address)
        table = "name,time_zone\nTannery Lane Cold Store,America/Chicago\n"
        say("entered sites", new=server.enter("sites", table)["new"])
        rows = [{"site": "Tannery Lane Cold Store", "rack": "B", "tag": "B3", "rated_voltage": 460}]
        say("entered machines", new=server.enter("machines", rows)["new"])
        for line in sys.stdin:
            shop.dispatch(**json.loads(line))


if __name__ == "__main__":
    main(*sys.argv[1:])
