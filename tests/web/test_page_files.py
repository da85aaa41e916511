"""What the server hands out for the phone: the listed files are the files on disk, typed, hashed, and nothing else."""

import base64
import gzip
import hashlib
import json
import re
from collections.abc import Iterator

import pytest
from fastapi.testclient import TestClient

from rackside import host, phone
from rackside.app import create_app
from rackside.settings import Settings


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    database = tmp_path_factory.mktemp("files") / "files.db"
    with TestClient(create_app(Settings(database_url=f"sqlite:///{database}"))) as started:
        yield started


def listed(client: TestClient) -> dict[str, str]:
    text = client.get("/precache.js").text
    release = json.loads(text.removeprefix("self.RELEASE = ").rstrip().removesuffix(";"))
    return release["files"]


def test_the_precache_list_is_what_is_on_disk(client: TestClient) -> None:
    ours = {path for path in phone.WEB.rglob("*") if path.suffix in phone.PAGE_SUFFIXES and path.is_file()}
    page = {"/" + path.relative_to(phone.WEB).as_posix() for path in ours if "vendor" not in path.parts}
    engine = {"/engine/index.json", "/engine/sources.txt"}
    vendor = {"/" + name for name in phone.VENDOR_FILES}
    assert set(listed(client)) == (page | engine | vendor) - {"/sw.js"}


def named_by_the_page(client: TestClient) -> tuple[list[str], list[str]]:
    """The modules that the page starts with, and those that wait in its template."""
    first, rest = client.get("/").text.split('<template id="beyond">')
    return tuple(re.findall(r'rel="modulepreload" href="([^"]+)"', part) for part in (first, rest))


def test_the_page_names_its_modules_so_that_none_waits_for_another(client: TestClient) -> None:
    first, rest = named_by_the_page(client)
    named = [*first, *rest]
    assert first[0] == "/app.js"
    assert len(named) == len(set(named))
    assert set(named) <= set(listed(client))
    for path in named:
        for name in re.findall(r'(?:from|import) "(\.[^"]+)"', client.get(path).text):
            target = "/" + str((phone.WEB / path[1:]).parent.joinpath(name).resolve().relative_to(phone.WEB.resolve()))
            assert target in (first if path in first else named), path


def test_the_first_screen_does_not_wait_for_the_others(client: TestClient) -> None:
    first, rest = named_by_the_page(client)
    assert "/views/calls.js" in first
    assert {"/views/reading.js", "/judge/client.js", "/sync/line.js", "/app/engine.js"} <= set(rest)


def test_every_listed_file_is_served_with_the_bytes_it_is_listed_by(client: TestClient) -> None:
    for path, mark in listed(client).items():
        answer = client.get(path)
        found = base64.b64encode(hashlib.sha256(answer.content).digest()).decode()
        assert (answer.status_code, found[:16]) == (200, mark), path


def test_every_import_of_the_page_is_listed(client: TestClient) -> None:
    files = listed(client)
    for path in [path for path in files if path.endswith((".js", ".mjs")) and "/vendor/" not in path]:
        for name in re.findall(r'(?:from |import |import\()"(\.[^"]+)"', client.get(path).text):
            target = str((phone.WEB / path[1:]).parent.joinpath(name).resolve().relative_to(phone.WEB.resolve()))
            assert "/" + target in files, f"{path} imports {name}"


@pytest.mark.parametrize(
    ("path", "media_type"),
    [
        ("/", "text/html; charset=utf-8"),
        ("/app.js", "text/javascript; charset=utf-8"),
        ("/vendor/micropython/micropython.mjs", "text/javascript; charset=utf-8"),
        ("/vendor/micropython/micropython.wasm", "application/wasm"),
        ("/styles/tokens.css", "text/css; charset=utf-8"),
        ("/manifest.webmanifest", "application/manifest+json"),
        ("/engine/entry.py", "text/plain; charset=utf-8"),
        ("/engine/index.json", "application/json"),
    ],
)
def test_media_types_are_set_by_us(client: TestClient, path: str, media_type: str) -> None:
    assert client.get(path).headers["content-type"] == media_type


@pytest.mark.parametrize("path", ["/nothing.js", "/views", "/package.json", "/../pyproject.toml", "/engine/none.py"])
def test_what_is_not_a_page_file_is_a_real_404(client: TestClient, path: str) -> None:
    answer = client.get(path)
    assert answer.status_code == 404
    assert answer.headers["content-type"] == "application/problem+json"


@pytest.mark.parametrize("path", ["/", "/judge/worker.js", "/sw.js", "/nothing.js"])
def test_every_answer_carries_the_content_policy(client: TestClient, path: str) -> None:
    assert client.get(path).headers["content-security-policy"].startswith("default-src 'none'; script-src 'self'")


def test_a_file_already_held_is_not_sent_again(client: TestClient) -> None:
    first = client.get("/app.js")
    again = client.get("/app.js", headers={"If-None-Match": first.headers["etag"]})
    assert (first.headers["cache-control"], again.status_code, again.content) == ("no-cache", 304, b"")


def test_the_engine_index_names_the_engine_the_server_runs(client: TestClient) -> None:
    index = client.get("/engine/index.json").json()
    assert index["digest"] == host.digest()
    assert "supply_voltage_unbalance" in index["checks"]
    assert "entry.py" in index["files"]


def test_the_engine_in_one_file_is_the_engine_on_disk(client: TestClient) -> None:
    on_disk = {path.relative_to(host.ENGINE).as_posix(): path.read_text() for path in host.ENGINE.rglob("*.py")}
    parts = client.get("/engine/sources.txt").text.split("\0")
    assert dict(zip(parts[:-1:2], parts[1::2], strict=True)) == on_disk
    assert client.get("/engine/entry.py").text == on_disk["entry.py"]


def test_without_the_fetched_files_the_server_names_the_remedy(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(phone, "VENDOR_FILES", ("vendor/absent.js",))
    phone.release.cache_clear()
    with pytest.raises(RuntimeError, match="make setup"):
        phone.release()
    phone.release.cache_clear()


@pytest.mark.parametrize("path", ["/m/3Z2222", "/diagnose"])
def test_an_address_from_outside_is_answered_with_the_page(client: TestClient, path: str) -> None:
    answer = client.get(path)
    assert (answer.status_code, answer.content) == (200, client.get("/").content)


def test_the_whole_first_install_fits_its_budget() -> None:
    release = phone.release()
    assert sum(len(release.packed(path)) for path in [*release.hashes, "/precache.js"]) <= 600_000


def test_what_setup_packed_is_the_file_itself() -> None:
    release = phone.release()
    runtime = "/vendor/micropython/micropython.wasm"
    assert gzip.decompress(release.packed(runtime)) == release.read(runtime)
    assert len(release.packed(runtime)) < len(gzip.compress(release.read(runtime), 9))
