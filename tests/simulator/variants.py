"""Set-ups of the small event that differ: other minutes, other roles, another price, another van."""

from collections.abc import Callable

Files = dict[str, bytes]


def variant(files: Files, number: int, demanded: bool) -> Files:
    """Return the files of one of several set-ups. demanded: whether entries must be signed."""
    changed = CHANGES[number % len(CHANGES)]({**files})
    trust = b'[trust]\nsignatures = "%s"\n' % (b"on" if demanded else b"off")
    return changed | {"event.toml": changed["event.toml"] + trust}


def _replaced(files: Files, name: str, old: bytes, new: bytes) -> Files:
    assert old in files[name]
    return files | {name: files[name].replace(old, new)}


CHANGES: list[Callable[[Files], Files]] = [
    lambda files: files,
    lambda files: _replaced(files, "rates/operations.csv", b"wheel,bent,replace,3,4,8", b"wheel,bent,replace,3,5,8"),
    lambda files: _replaced(
        files, "event.toml", b'person = "p-odil"\nroles = ["inspector"]', b'person = "p-odil"\nroles = ["mechanic"]'
    ),
    lambda files: _replaced(files, "van.csv", b"hose,3", b"hose,1"),
]
