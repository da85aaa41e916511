"""What stands on the pages of a PDF, read back by the tools a printer's operator would use."""

import re
import shutil
import subprocess
from pathlib import Path

from tests.fixtures.requirements import require


def _said(program: str, *arguments: str, content: bytes) -> str:
    require("poppler", bool(shutil.which(program)), "install Debian's package poppler-utils")
    command = [program, *arguments]
    return subprocess.run(command, input=content, capture_output=True, check=True).stdout.decode()


def pages_of(pdf: bytes) -> list[str]:
    """Return the text of each page, single spaces."""
    pages = _said("pdftotext", "-layout", "-", "-", content=pdf).split("\f")[:-1]
    return [re.sub(r"\s+", " ", page).strip() for page in pages]


def fonts_of(pdf: bytes, folder: Path) -> dict[str, bool]:
    """Return the fonts and whether each is embedded."""
    (folder / "fonts.pdf").write_bytes(pdf)
    lines = _said("pdffonts", str(folder / "fonts.pdf"), content=b"").splitlines()[2:]
    return {line.split()[0]: line.split()[-5] == "yes" for line in lines}


def pictures_in(pdf: bytes, folder: Path) -> list[tuple[int, int]]:
    """Return width and height of each photo in the file, by first use."""
    (folder / "pictures.pdf").write_bytes(pdf)
    lines = _said("pdfimages", "-list", str(folder / "pictures.pdf"), content=b"").splitlines()[2:]
    return [(int(line.split()[3]), int(line.split()[4])) for line in lines if line.split()[2] == "image"]
