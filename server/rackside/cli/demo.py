"""The server with the invented co-operative in it, loaded the way other software loads things: by HTTP."""

import importlib
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import uvicorn
from fastapi import FastAPI

from rackside.access import people
from rackside.records import Database
from rackside.settings import Settings

PACKAGE = Path(__file__).parents[1]
ADMIN, ADMIN_PASSWORD = "Demo admin", "open-house-33"


def _story() -> Any:
    """Return the demo's package: beside this one when installed, at the top of the source tree otherwise."""
    if (PACKAGE / "seed_demo").is_dir():
        return importlib.import_module("rackside.seed_demo")
    sys.path.insert(0, str(PACKAGE.parents[1]))
    return importlib.import_module("seed_demo")


def _add_admin(database: Database) -> None:
    with database.writing() as connection:
        if not people.taken(connection, ADMIN):
            people.add(connection, ADMIN, ADMIN_PASSWORD, "admin")


def run(app: FastAPI, settings: Settings, say: Callable[[str], Any]) -> bool:
    """Serve, load the demo into the server, print addresses and sign-ins, and go on serving.

    Return whether the demo could be loaded, once the server has ended.
    """
    story, address = _story(), f"http://{settings.host}:{settings.port}"
    database: Database = app.state.database
    database.migrate()
    _add_admin(database)
    config = uvicorn.Config(app, settings.host, settings.port, log_level="warning", access_log=False)
    server = uvicorn.Server(config)
    failed = threading.Event()
    threading.Thread(target=_load, args=(server, story, address, say, failed), daemon=True).start()
    server.run()
    return not failed.is_set()


def _load(server: uvicorn.Server, story: Any, address: str, say: Callable[[str], Any], failed: threading.Event) -> None:
    while not server.started:
        time.sleep(0.02)
    say("Loading the demo …")
    try:
        loaded = story.load(address, ADMIN, ADMIN_PASSWORD)
    except Exception as error:
        say(f"The demo could not be loaded: {error}")
        failed.set()
        server.should_exit = True
        return
    signs = [(ADMIN, ADMIN_PASSWORD, "admin"), *((one.name, one.password, one.role) for one in story.PEOPLE)]
    lines = [f"Demo loaded: {loaded.accepted} entries, {loaded.held} were there already.", ""]
    lines += [
        f"Phone page  {address}/",
        f"Office      {address}/office",
        f"API         {address}/api/v1/openapi.json",
        "",
    ]
    lines += [f"Sign in as  {name:16} password {password:18} ({role})" for name, password, role in signs]
    say("\n".join([*lines, "", "Stop with Ctrl-C."]))
