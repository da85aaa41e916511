"""What a test looks up behind a phone's screen: its store, and what the server holds."""

import httpx
from playwright.sync_api import Page

from seed_demo.people import CASTELLANOS
from tests.fixtures.servers import Server

COUNT = """(store) => new Promise((done) => {
    const asked = indexedDB.open("rackside");
    asked.onsuccess = () => {
        const counted = asked.result.transaction(store).objectStore(store).count();
        counted.onsuccess = () => { asked.result.close(); done(counted.result); };
    };
})"""


def held(page: Page, store: str) -> int:
    """How many things one store of the phone holds."""
    return page.evaluate(COUNT, store)


def office_client(server: Server) -> httpx.Client:
    """Somebody of the office at the API."""
    api = server.url + "/api/v1"
    signed_in = {"name": CASTELLANOS.name, "password": CASTELLANOS.password, "device": "desk"}
    token = httpx.post(api + "/devices", json=signed_in, trust_env=False).raise_for_status().json()["token"]
    return httpx.Client(base_url=api, headers={"Authorization": f"Bearer {token}"}, trust_env=False, timeout=30)


def entries_of(server: Server, call: str) -> list[dict]:
    with office_client(server) as client:
        return client.get("/entries", params={"call": call, "limit": 1000}).raise_for_status().json()["items"]
