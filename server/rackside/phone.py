"""The phone page as files: its modules, the engine's sources, and the list that makes one version whole."""

import base64
import gzip
import hashlib
import json
import posixpath
import re
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any

from fastapi import APIRouter, HTTPException, Request, Response

from rackside import host

HERE = Path(__file__).parent
WEB = HERE / "web" if (HERE / "web").is_dir() else HERE.parents[1] / "web"

MEDIA_TYPES = {
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".mjs": "text/javascript; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".py": "text/plain; charset=utf-8",
    ".json": "application/json",
    ".txt": "text/plain; charset=utf-8",
}
VENDOR_FILES = (
    "vendor/idb/index.js",
    "vendor/lit-html/lit-html.js",
    "vendor/micropython/micropython.mjs",
    "vendor/micropython/micropython.wasm",
)
PAGE_SUFFIXES = {".html", ".js", ".css", ".svg", ".png", ".webmanifest"}
ENGINE_INDEX = "/engine/index.json"
# All of the engine's files as one: a fifth less to download than each by itself, and one request.
ENGINE_SOURCES = "/engine/sources.txt"
# How much of a file's hash the list carries: 96 bits, enough against any accident, and a hash does not pack.
MARK = 16
IMPORTED = re.compile(rb'(?:from|import) "(\.[^"]+)"')
# What the page's first module imports once its first screen stands.
IMPORTED_LATER = re.compile(rb'import\("(\.[^"]+)"\)')
# Addresses that open the page from outside: a label's, and the page that looks at itself.
DOORS = ("m/", "diagnose")


class Release:
    """One version of the page: every file it needs, and what each hashed to when the server started."""

    def __init__(self, web: Path, engine: Path, engine_index: dict[str, Any]) -> None:
        self.web, self.engine = web, engine
        sources = [f"{name}\0{(engine / name).read_text()}\0" for name in engine_index["files"]]
        self.made = {
            ENGINE_INDEX: json.dumps(engine_index).encode(),
            ENGINE_SOURCES: "".join(sources).encode(),
        }
        page = ["/" + name for name in (*_page_files(web), *VENDOR_FILES)]
        self.hashes = {path: _sha256(self.read(path)) for path in sorted([*page, *self.made])}

    @cached_property
    def digest(self) -> str:
        return hashlib.sha256(json.dumps(self.hashes).encode()).hexdigest()

    @cached_property
    def precache(self) -> bytes:
        """The script the service worker imports: what to fetch, and how each file's hash must begin."""
        files = {path: found[:MARK] for path, found in self.hashes.items() if path != "/sw.js"}
        return f"self.RELEASE = {json.dumps({'digest': self.digest, 'files': files}, indent=0)};\n".encode()

    def read(self, path: str) -> bytes:
        """The bytes served at a path; FileNotFoundError for what the page does not have."""
        if path in self.made:
            return self.made[path]
        if path == "/precache.js":
            return self.precache
        if path == "/index.html":
            return self.first_page
        return self._file(path)

    def packed(self, path: str) -> bytes:
        """The same gzipped, as it travels: large third-party files as setup packed them, the rest packed now."""
        beside = self.web / f"{path[1:]}.gz"
        return beside.read_bytes() if path[1:] in VENDOR_FILES and beside.is_file() else _gzipped(self.read(path))

    def _file(self, path: str) -> bytes:
        root, name = (self.engine, path[8:]) if path.startswith("/engine/") else (self.web, path[1:])
        place = (root / name).resolve()
        if not place.is_relative_to(root.resolve()) or place.suffix not in MEDIA_TYPES or place.suffix == ".json":
            raise FileNotFoundError(path)
        return place.read_bytes()

    @cached_property
    def first_page(self) -> bytes:
        """The page naming every module it starts with, so that they are fetched together and not one after another.

        Those beyond the first screen lie in a template, which fetches nothing until the page unfolds it.
        """
        words = sorted(f"/words/{path.name}" for path in self.web.glob("words/*.js"))
        first = self._reached_from(["/app.js", *words])
        later = self._named_in("/app.js", IMPORTED_LATER)
        rest = self._reached_from([*first, *later])[len(first) :]
        head = _preloads(first) + f'  <template id="beyond">\n{_preloads(rest)}  </template>\n'
        return self._file("/index.html").replace(b"</head>", head.encode() + b"</head>")

    def _reached_from(self, modules: list[str]) -> list[str]:
        """These modules and all that they import, without what is imported only when it is needed."""
        found = list(modules)
        for path in found:
            found.extend(name for name in self._named_in(path, IMPORTED) if name not in found)
        return found

    def _named_in(self, path: str, how: re.Pattern[bytes]) -> list[str]:
        names = dict.fromkeys(how.findall(self._file(path)))
        return [posixpath.normpath(posixpath.join(path, "..", name.decode())) for name in names]


def _preloads(modules: list[str]) -> str:
    return "".join(f'  <link rel="modulepreload" href="{path}">\n' for path in modules)


def _page_files(web: Path) -> list[str]:
    found = (path for path in web.rglob("*") if path.suffix in PAGE_SUFFIXES and path.is_file())
    names = (path.relative_to(web).as_posix() for path in found)
    return [name for name in names if not name.startswith(("vendor/", "node_modules/"))]


def _sha256(content: bytes) -> str:
    return base64.b64encode(hashlib.sha256(content).digest()).decode()


@lru_cache
def release() -> Release:
    """The version on disk, read once; refuses to go on without the files that setup fetches."""
    missing = [name for name in VENDOR_FILES if not (WEB / name).is_file()]
    if missing:
        raise RuntimeError(f"The phone page lacks {', '.join(missing)}: run `make setup`, which fetches them.")
    return Release(WEB, host.ENGINE, engine_index())


def engine_index() -> dict[str, Any]:
    """What the phone's worker must write into its file system, and how the engine names itself."""
    return {"digest": host.digest(), "files": list(host.files()), "checks": list(host.checks())}


@lru_cache(maxsize=256)
def _gzipped(content: bytes) -> bytes:
    return gzip.compress(content, compresslevel=9, mtime=0)


router = APIRouter(include_in_schema=False)


@router.api_route("/{path:path}", methods=["GET", "HEAD"])
def page_file(path: str, request: Request) -> Response:
    """One file of the page, always revalidated, so that no cache mixes two versions."""
    wanted = "/" + ("index.html" if not path or path.startswith(DOORS[0]) or path == DOORS[1] else path)
    try:
        content = release().read(wanted)
    except (FileNotFoundError, IsADirectoryError, NotADirectoryError, ValueError):
        raise HTTPException(404, f"The phone page has no file {wanted}.") from None
    etag = f'"{_sha256(content)}"'
    headers = {"ETag": etag, "Cache-Control": "no-cache", "Vary": "Accept-Encoding"}
    if request.headers.get("if-none-match") == etag:
        return Response(status_code=304, headers=headers)
    if "gzip" in request.headers.get("accept-encoding", ""):
        content, headers["Content-Encoding"] = release().packed(wanted), "gzip"
    return Response(content, media_type=MEDIA_TYPES[Path(wanted).suffix], headers=headers)
