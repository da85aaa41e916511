"""Install what the tests need from the system where that can be done; otherwise say in one sentence what lacks."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

PACKAGES = {
    "chromium": "the browser tests",
    "fonts-dejavu-core": "readable screenshots",
    "poppler-utils": "the tests of what stands on printed pages",
    "postgresql": "the storage tests on PostgreSQL",
    "webkit2gtk-driver": "the engine's test in WebKit",
    "xvfb": "the engine's test in WebKit",
}


def present(package: str) -> bool:
    """Whether the program is here, whoever installed it."""
    if package == "postgresql":
        return bool(shutil.which("initdb") or list(Path("/usr/lib/postgresql").glob("*/bin/initdb")))
    if package == "fonts-dejavu-core":
        return Path("/usr/share/fonts").is_dir() and any(Path("/usr/share/fonts").rglob("*.[to]tf"))
    programs = {
        "poppler-utils": ("pdftotext",),
        "chromium": ("chromium", "chromium-browser"),
        "webkit2gtk-driver": ("WebKitWebDriver",),
        "xvfb": ("Xvfb",),
    }
    return any(shutil.which(program) for program in programs[package])


def install(packages: list[str]) -> None:
    """Ask Debian's package manager; a failure is told by the sentence that follows, not by a stop."""
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    subprocess.run(["apt-get", "-qq", "update"], env=environment, check=False)
    command = ["apt-get", "-qq", "install", "--yes", "--no-install-recommends", *packages]
    subprocess.run(command, env=environment, stdout=subprocess.DEVNULL, check=False)


def main() -> None:
    missing = [package for package in PACKAGES if not present(package)]
    if missing and shutil.which("apt-get") and os.geteuid() == 0:
        install(missing)
    for package in missing:
        if not present(package):
            print(f"{PACKAGES[package]} will be skipped: install {package} to run them", file=sys.stderr)


if __name__ == "__main__":
    main()
