"""What a phone downloads at its first install, everything counted as it travels."""

from rackside.phone import release


def test_first_install() -> None:
    page = release()
    sizes = {path: len(page.packed(path)) for path in [*page.hashes, "/precache.js"]}
    total = sum(sizes.values())
    largest = sorted(sizes, key=sizes.__getitem__, reverse=True)[:5]
    print(f"\nfirst install: {total / 1000:.0f} kB gzipped in {len(sizes)} files (budget 600 kB)")
    print("largest: " + ", ".join(f"{path} {sizes[path] / 1000:.0f} kB" for path in largest))
    assert total <= 600_000
