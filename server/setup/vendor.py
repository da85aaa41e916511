"""Copy the page's third-party files from npm's tree to web/vendor: python vendor.py NODE_MODULES TARGET."""

import shutil
import sys
from pathlib import Path

from zopfli import gzip

LIT = ("lit-html", "directive", "directive-helpers", "async-directive")
LIT_DIRECTIVES = ("class-map", "if-defined", "keyed", "live", "ref", "repeat")
LIT_MODULES = (*LIT, *(f"directives/{name}" for name in LIT_DIRECTIVES))
IDB_TYPES = ("index", "entry", "database-extras", "async-iterators")

# The .d.ts files are for `make check` alone: they lie beside the modules they describe and are never served.
FILES = {
    **{f"lit-html/{name}.js": f"lit-html/{name}.js" for name in LIT_MODULES},
    **{f"lit-html/{name}.d.ts": f"lit-html/{name}.d.ts" for name in LIT_MODULES},
    "lit-html/LICENSE": "lit-html/LICENSE",
    "idb/index.js": "idb/build/index.js",
    **{f"idb/{name}.d.ts": f"idb/build/{name}.d.ts" for name in IDB_TYPES},
    "idb/LICENSE": "idb/LICENSE",
    "uplot/uPlot.esm.js": "uplot/dist/uPlot.esm.js",
    "uplot/uPlot.esm.d.ts": "uplot/dist/uPlot.d.ts",
    "uplot/uPlot.min.css": "uplot/dist/uPlot.min.css",
    "uplot/LICENSE": "uplot/LICENSE",
    "micropython/micropython.mjs": "@micropython/micropython-webassembly-pyscript/micropython.mjs",
    "micropython/micropython.wasm": "@micropython/micropython-webassembly-pyscript/micropython.wasm",
    "micropython/package.json": "@micropython/micropython-webassembly-pyscript/package.json",
}
# A third of the first install: packed here once, slowly and 5 % smaller than the server would pack them.
PACKED = ("micropython/micropython.mjs", "micropython/micropython.wasm")


def copy_all(modules: Path, target: Path) -> None:
    """Lay web/vendor anew, so that a file dropped from the list is gone from the page too."""
    missing = sorted(source for source in FILES.values() if not (modules / source).is_file())
    if missing:
        sys.exit(f"{modules} lacks {', '.join(missing)}: run make clean, then make setup")
    shutil.rmtree(target, ignore_errors=True)
    for name, source in FILES.items():
        (target / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(modules / source, target / name)
    for name in PACKED:
        (target / f"{name}.gz").write_bytes(gzip.compress((target / name).read_bytes()))


if __name__ == "__main__":
    copy_all(Path(sys.argv[1]), Path(sys.argv[2]))
