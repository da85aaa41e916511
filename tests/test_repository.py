"""What lies in the repository, and how large its pieces may grow."""

import ast
import json
import re
import subprocess
import tomllib
from collections.abc import Iterator
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

from rackside.api.errors import CODES
from rackside.settings import Settings

ROOT = Path(__file__).parents[1]
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "pyproject.toml", "Makefile", "Dockerfile"}
TOP_FOLDERS = {"server", "web", "tests", "seed_demo"}
DESCRIBED_HOSTS = {"127.0.0.1", "localhost", "www.w3.org"}
URL = re.compile(r"[a-z]://([a-z0-9][\w.-]*)", re.I)
MACHINE_PATH = re.compile(r"(?<![\w.:-])/(?:home|Users|root|work|tmp)/\w")
LONGEST_BODY, LONGEST_FILE = 40, 250
NUMBERS_AND_WORDS = re.compile(r"engine/(tables|words)/|web/words/|migrations/versions/")
# Taken by their names, not by an import; zopfli by setup alone.
REACHED_BY_NAME = {"python-multipart", "tzdata", "weasyprint", "zopfli"}


def tracked() -> list[Path]:
    """Every file of the project, those not yet committed included."""
    command = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    names = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout.split("\0")
    return [ROOT / name for name in names if name and (ROOT / name).is_file()]


def text_of(path: Path) -> str:
    return path.read_bytes().decode("utf-8", "replace")


def label(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def sources(suffix: str) -> list[Path]:
    return [path for path in tracked() if path.suffix == suffix and path.relative_to(ROOT).parts[0] != "tests"]


def matching(pattern: re.Pattern[str], text: str) -> list[str]:
    return [match.group(0) for match in pattern.finditer(text)]


def described(host: str) -> bool:
    return host in DESCRIBED_HOSTS or host.endswith((".example", ".test", ".invalid"))


def test_no_host_is_named() -> None:
    found = {label(path): [host for host in URL.findall(text_of(path)) if "." in host] for path in tracked()}
    named = {name: [host for host in hosts if not described(host)] for name, hosts in found.items()}
    assert {name: hosts for name, hosts in named.items() if hosts} == {}


def test_no_path_of_somebodys_machine_is_named() -> None:
    found = {label(path): matching(MACHINE_PATH, text_of(path)) for path in tracked()}
    assert {name: paths for name, paths in found.items() if paths} == {}


def test_lock_files_name_versions_and_hashes_only() -> None:
    for path in (ROOT / "server" / "requirements").glob("*.txt"):
        assert "://" not in text_of(path), label(path)
        assert text_of(path).count("==") <= text_of(path).count("--hash=sha256:"), label(path)
    packages = json.loads(text_of(ROOT / "web" / "package-lock.json"))["packages"]
    assert [name for name, package in packages.items() if "resolved" in package] == []
    assert [name for name, package in packages.items() if name and "integrity" not in package] == []


def test_python_locks_cover_what_the_project_asks_for() -> None:
    project = tomllib.loads(text_of(ROOT / "pyproject.toml"))
    groups = project["dependency-groups"]
    for name, wanted in {
        "run": project["project"]["dependencies"],
        "dev": groups["dev"],
        "node": groups["node"],
    }.items():
        locked = set(re.findall(r"^([\w.-]+)==", text_of(ROOT / "server" / "requirements" / f"{name}.txt"), re.M))
        assert {re.split(r"[\[=<>~ ]", line)[0] for line in wanted} <= locked, f"{name}.txt is stale: say make lock"


def test_npm_lock_covers_what_the_page_asks_for() -> None:
    wanted = json.loads(text_of(ROOT / "web" / "package.json"))
    locked = json.loads(text_of(ROOT / "web" / "package-lock.json"))["packages"][""]
    for kind in ("dependencies", "devDependencies"):
        assert wanted[kind] == locked[kind], "package-lock.json is stale: say make lock"
        assert all(re.fullmatch(r"[\d.]+", version) for version in wanted[kind].values()), "name exact versions"


def test_what_others_wrote_stays_out_of_git() -> None:
    vendor = [path for path in (ROOT / "web" / "vendor").rglob("*") if path.is_file()]
    assert vendor, "web/vendor is empty: say make setup"
    assert [label(path) for path in tracked() if path in set(vendor)] == []
    assert [label(path) for path in tracked() if path.suffix in {".wasm", ".whl", ".min.js"}] == []


def test_top_level_stays_small() -> None:
    top = {path.relative_to(ROOT).parts for path in tracked()}
    files = {parts[0] for parts in top if len(parts) == 1 and not parts[0].startswith(".")}
    folders = {parts[0] for parts in top if len(parts) > 1 and not parts[0].startswith(".")}
    assert files <= TOP_LEVEL
    assert folders <= TOP_FOLDERS


def test_every_import_is_declared_and_every_declaration_imported() -> None:
    project = tomllib.loads(text_of(ROOT / "pyproject.toml"))["project"]
    declared = {re.split(r"[\[=<>~ ]", line)[0] for line in project["dependencies"]}
    owners, imported = packages_distributions(), set()
    for path in [path for path in sources(".py") if not label(path).startswith("server/setup/")]:
        for node in ast.walk(ast.parse(text_of(path))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            names += [node.module] if isinstance(node, ast.ImportFrom) and not node.level and node.module else []
            imported |= {
                owner.lower().replace("_", "-") for name in names for owner in owners.get(name.split(".")[0], [])
            }
    came_with = {"anyio", "pydantic", "rackside", "sqlalchemy", "starlette"}
    assert imported - declared - came_with == set(), "imported, but not among the dependencies"
    assert declared - imported - REACHED_BY_NAME == set(), "a dependency that nothing imports"


def test_every_command_that_is_promised_exists() -> None:
    promised = {
        word
        for name in ("README.md", "DEVELOPERS.md", ".ci/run")
        for word in re.findall(r"\bmake ([a-z-]+)\b", text_of(ROOT / name))
    }
    known = set(re.findall(r"^([a-z-]+):", text_of(ROOT / "Makefile"), re.M))
    assert promised - {"sure"} <= known


def test_every_setting_is_described() -> None:
    described_settings = set(re.findall(r"^\| `RACKSIDE_(\w+)` \| `([^`]*)` ", text_of(ROOT / "README.md"), re.M))
    assert described_settings == {(name.upper(), str(field.default)) for name, field in Settings.model_fields.items()}


def test_every_error_code_is_described() -> None:
    tabled = dict(re.findall(r"^\| `(\w+)` \| (\d{3})(?:, entry)? \| ", text_of(ROOT / "DEVELOPERS.md"), re.M))
    assert tabled == {name: str(code.status) for name, code in CODES.items()}


def python_bodies(path: Path) -> Iterator[tuple[str, int]]:
    for node in ast.walk(ast.parse(text_of(path))):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            body = node.body[1:] if ast.get_docstring(node) else node.body
            yield f"{label(path)}:{node.lineno} {node.name}", body[-1].end_lineno - body[0].lineno + 1 if body else 0


def script_bodies(text: str, name: str) -> Iterator[tuple[str, int]]:
    """Count each function's own lines; what stands in a function within it is that one's.

    A function of formatted JavaScript ends at the next line of its own indent that starts with a brace.
    """
    lines, bodies = text.splitlines(), []
    opening = re.compile(r"^(\s*)(?!.*\b(?:class|if|for|while|switch|catch|try|else)\b).*(?:\)|=>)\s*\{$")
    for start, line in enumerate(lines):
        if found := opening.match(line):
            ends = (end for end in range(start + 1, len(lines)) if re.match(rf"{found.group(1)}\}}", lines[end]))
            bodies.append(range(start + 1, next(ends, len(lines))))
    for body in bodies:
        within = {line for inner in bodies if inner.start > body.start and inner.stop < body.stop for line in inner}
        yield f"{name}:{body.start}", len(body) - len(within)


@pytest.mark.parametrize("path", sources(".py"), ids=label)
def test_python_bodies_stay_short(path: Path) -> None:
    long = [(name, length) for name, length in python_bodies(path) if length > LONGEST_BODY]
    assert long == [] or NUMBERS_AND_WORDS.search(label(path))


@pytest.mark.parametrize("path", sources(".js"), ids=label)
def test_script_bodies_stay_short(path: Path) -> None:
    assert [found for found in script_bodies(text_of(path), label(path)) if found[1] > LONGEST_BODY] == []


def test_a_long_script_body_is_seen() -> None:
    inner = "  const keep = () => {\n" + "    step();\n" * 5 + "  };\n"
    long = "export function draw(state) {\n" + inner + "  step();\n" * 39 + "}\n"
    assert list(script_bodies(long, "a.js")) == [("a.js:1", 41), ("a.js:2", 5)]


@pytest.mark.parametrize("path", [*sources(".py"), *sources(".js")], ids=label)
def test_files_stay_short(path: Path) -> None:
    lines = len(text_of(path).splitlines())
    assert lines <= LONGEST_FILE or NUMBERS_AND_WORDS.search(label(path)), f"{lines} lines"
