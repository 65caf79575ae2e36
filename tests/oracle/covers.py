"""Says which entries a closing entry covers for a key."""

from typing import Any

from .entries import listed
from .folder import Folder
from .versions import replaces, versions_of


def said_condition(folder: Folder, version: dict[str, Any], key: str) -> str | None:
    """The condition in which a version says the key, or None if it does not."""
    return next((one.condition for one in folder.said[version["id"]] if one.key == key), None)


def covered_by(folder: Folder, closing: dict[str, Any], key: str) -> list[Any]:
    """The ids that a closing entry covers for a key.

    They count on the entry's own subject only, a car's release on all of its car's jobs. A version that replaces a
    covered one and says the same key in the same condition is covered too, and so on down.
    """
    if closing["kind"] != "car.released" and closing["subject"] != key:
        return []
    covered = list(listed(closing, "covers"))
    saying = [one for one in versions_of(folder.entries) if said_condition(folder, one, key) is not None]
    grown = True
    while grown:
        again = [
            one["id"] for one in saying if one["id"] not in covered and said_again(folder, one, covered, key, saying)
        ]
        covered = covered + again
        grown = bool(again)
    return covered


def said_again(folder: Folder, version: dict[str, Any], covered: list[Any], key: str, saying: list[Any]) -> bool:
    """Whether the version replaces a covered one of those saying the key, in the same condition."""
    condition = said_condition(folder, version, key)
    uppers = [one for one in saying if one["id"] in covered and replaces(version, one)]
    return any(said_condition(folder, upper, key) == condition for upper in uppers)
