"""The arrows of the house, read from the imports themselves: whatever is not listed here is refused."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
SERVER, WEB, SEED = ROOT / "server" / "rackside", ROOT / "web", ROOT / "seed_demo"

TRADES = {"reports", "sync", "access", "hooks"}
FOUNDATION = {"engine", "settings"}
BELOW_TRADES = FOUNDATION | {"records"}
BELOW_ROUTES = BELOW_TRADES | TRADES | {"host"}
SERVER_ARROWS = {
    "app": BELOW_ROUTES | {"api", "office", "phone", "headers"},
    "cli": BELOW_ROUTES | {"api", "office", "app"},
    "api": BELOW_ROUTES,
    "office": BELOW_ROUTES,
    "phone": {"headers", "host", "settings"},
    "reports": BELOW_TRADES | {"host"},
    "sync": BELOW_TRADES,
    "access": BELOW_TRADES,
    "hooks": BELOW_TRADES,
    "records": FOUNDATION | {"host"},
    "host": {"engine"},
    "engine": set(),
    "settings": set(),
    "headers": set(),
    "client": set(),
}
CONTROLLED = {"views", "components", "state", "storage", "sync", "judge", "words", "vendor"}
WEB_ARROWS = {
    "app.js": CONTROLLED | {"app"},
    "app": CONTROLLED,
    "sw.js": set(),
    "views": {"state", "components", "words", "vendor"},
    "components": {"state", "words", "vendor"},
    "state": {"words"},
    "sync": {"storage", "words"},
    "storage": {"vendor"},
    "judge": {"vendor"},
    "words": set(),
}
ENGINE_LIBRARY = {"math", "json"}
NO_BROWSER = re.compile(r"\b(window|document|indexedDB|localStorage|fetch|navigator)\b\s*[.(]")
NO_PAINT = re.compile(
    r"\bdocument\.(query|get|create|write|body|title|documentElement)|\bfrom\s+\"[^\"]*lit-html|\binnerHTML\b"
)
JS_IMPORT = re.compile(
    r"""(?:^|;)\s*(?:import|export)\s[^"';]*?from\s*["']([^"']+)["']|import\s*\(?\s*["']([^"']+)["']""", re.M
)


def python_imports(path: Path, package: tuple[str, ...]) -> Iterator[str]:
    """Yield every imported name in full; `package` is where relative imports start."""
    for node in ast.walk(ast.parse(path.read_text(), str(path))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = package[: len(package) - node.level + 1] if node.level else ()
            module = ".".join([*start, *([node.module] if node.module else [])])
            yield from (f"{module}.{alias.name}" for alias in node.names)


def server_imports(path: Path) -> Iterator[str]:
    return python_imports(path, ("rackside", *path.relative_to(SERVER).parent.parts))


def part_of(root: Path, path: Path) -> str:
    return path.relative_to(root).parts[0].removesuffix(".py")


def server_files() -> list[Path]:
    return sorted(path for path in SERVER.rglob("*.py") if path.parent != SERVER or path.stem != "__init__")


def web_files() -> list[Path]:
    return sorted(path for path in WEB.rglob("*.js") if "vendor" not in path.relative_to(WEB).parts)


def forbidden_server_arrows(path: Path) -> list[str]:
    here = part_of(SERVER, path)
    reached = {name.split(".")[1] for name in server_imports(path) if name.startswith("rackside.")}
    return sorted(reached - SERVER_ARROWS.get(here, set()) - {here, "__version__"})


def may_import(path: Path, name: str) -> bool:
    here, target = part_of(WEB, path), (path.parent / name).resolve()
    inside = name.startswith(".") and target.is_relative_to(WEB)
    return inside and part_of(WEB, target) in WEB_ARROWS.get(here, set()) | {here}


def forbidden_web_arrows(path: Path) -> list[str]:
    names = [first or second for first, second in JS_IMPORT.findall(path.read_text())]
    return [name for name in names if not may_import(path, name)]


def label(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


@pytest.mark.parametrize("path", server_files(), ids=label)
def test_server_arrows_point_down(path: Path) -> None:
    assert forbidden_server_arrows(path) == [], f"{label(path)} may import {SERVER_ARROWS.get(part_of(SERVER, path))}"


@pytest.mark.parametrize("path", web_files(), ids=label)
def test_page_arrows_point_down(path: Path) -> None:
    assert forbidden_web_arrows(path) == [], f"{label(path)} may import {WEB_ARROWS.get(part_of(WEB, path))}"


@pytest.mark.parametrize("path", sorted((SERVER / "engine").rglob("*.py")), ids=label)
def test_no_import_leaves_the_engine(path: Path) -> None:
    inside = "rackside.engine"
    leaving = {name for name in server_imports(path) if not f"{name}.".startswith(f"{inside}.")}
    annotations = {"typing"} if path.name == "kinds.py" else set()
    assert {name.split(".")[0] for name in leaving} <= ENGINE_LIBRARY | annotations
    absolute = [name for name in python_imports(path, ("engine",)) if name.startswith("rackside")]
    assert absolute == [], "inside the engine imports are relative: on the phone the package is called engine"


@pytest.mark.parametrize("path", sorted((SERVER / "engine" / "checks").glob("*.py")), ids=label)
def test_a_check_never_imports_another_check(path: Path) -> None:
    assert [name for name in server_imports(path) if name.startswith("rackside.engine.checks.")] == []


@pytest.mark.parametrize("path", sorted(SEED.rglob("*.py")), ids=label)
def test_the_demo_comes_in_through_the_front_door(path: Path) -> None:
    names = python_imports(path, ("seed_demo", *path.relative_to(SEED).parent.parts))
    assert {name for name in names if name.startswith("rackside.") and not name.startswith("rackside.client")} == set()


def test_only_records_commits() -> None:
    committing = [label(path) for path in server_files() if re.search(r"\.commit\(", path.read_text())]
    assert [name for name in committing if not name.startswith("server/rackside/records/")] == []


@pytest.mark.parametrize("path", [path for path in web_files() if part_of(WEB, path) == "state"], ids=label)
def test_state_knows_no_browser(path: Path) -> None:
    assert NO_BROWSER.findall(path.read_text()) == []


@pytest.mark.parametrize("path", [path for path in web_files() if part_of(WEB, path) in {"storage", "sync"}], ids=label)
def test_storage_and_sync_never_paint(path: Path) -> None:
    assert NO_PAINT.findall(path.read_text()) == []


def test_a_forbidden_arrow_is_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The readers above are tried on files that break the rules, so that an empty list means something."""
    monkeypatch.setattr(f"{__name__}.SERVER", tmp_path)
    monkeypatch.setattr(f"{__name__}.WEB", tmp_path)
    (tmp_path / "records").mkdir()
    (tmp_path / "records" / "log.py").write_text(
        "from ..api import errors\nimport rackside.office.pages\nfrom rackside import sync\n"
    )
    (tmp_path / "views").mkdir()
    (tmp_path / "views" / "round.js").write_text(
        'import {\n  keep,\n} from "../storage/log.js";\nimport "../sync/line.js";\n'
    )
    assert forbidden_server_arrows(tmp_path / "records" / "log.py") == ["api", "office", "sync"]
    assert forbidden_web_arrows(tmp_path / "views" / "round.js") == ["../storage/log.js", "../sync/line.js"]
