"""A yardstick: the least a server of entries can be. SQLite, a transaction a batch, ids remembered, pages of 1,000."""

import json
import sqlite3
import sys

import uvicorn
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

database = sqlite3.connect(sys.argv[1], isolation_level=None)
database.execute("PRAGMA journal_mode=WAL")
database.execute("PRAGMA synchronous=FULL")
database.execute("CREATE TABLE entries (id TEXT PRIMARY KEY, cursor INTEGER, call TEXT, document TEXT)")
database.execute("CREATE INDEX by_cursor ON entries (cursor)")
database.execute("CREATE TABLE operations (id TEXT PRIMARY KEY, cursor INTEGER)")
database.execute("CREATE TABLE counter (cursor INTEGER)")
database.execute("INSERT INTO counter VALUES (0)")


async def push(request: Request) -> Response:
    entries = json.loads(await request.body())["entries"]
    database.execute("BEGIN IMMEDIATE")
    marks = ",".join("?" * len(entries))
    asked = [entry["id"] for entry in entries]
    held = {row[0] for row in database.execute(f"SELECT id FROM operations WHERE id IN ({marks})", asked)}
    fresh = [entry for entry in entries if entry["id"] not in held]
    (cursor,) = database.execute("SELECT cursor FROM counter").fetchone()
    rows = [(one["id"], cursor + place, one["call"], json.dumps(one)) for place, one in enumerate(fresh, 1)]
    database.executemany("INSERT INTO entries VALUES (?, ?, ?, ?)", rows)
    database.executemany("INSERT INTO operations VALUES (?, ?)", [row[:2] for row in rows])
    database.execute("UPDATE counter SET cursor = ?", (cursor + len(rows),))
    database.execute("COMMIT")
    results = [{"id": one, "status": "repeated" if one in held else "accepted"} for one in asked]
    return Response(json.dumps({"results": results}), media_type="application/json")


async def pull(request: Request) -> Response:
    after = int(request.query_params["after"])
    found = database.execute(
        "SELECT cursor, document FROM entries WHERE cursor > ? ORDER BY cursor LIMIT 1000", (after,)
    )
    rows = found.fetchall()
    told = f'{{"items":[{",".join(row[1] for row in rows)}],"cursor":{rows[-1][0] if rows else after}}}'
    return Response(told, media_type="application/json")


app = Starlette(routes=[Route("/entries", push, methods=["POST"]), Route("/entries", pull, methods=["GET"])])
uvicorn.run(app, port=int(sys.argv[2]), log_level="warning", access_log=False)
