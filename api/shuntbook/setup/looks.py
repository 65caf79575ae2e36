"""Check lists: what an inspector goes through at a look, by the group of the component."""

from collections.abc import Iterable, Mapping
from functools import cache
from importlib.resources import files as resources

from shuntbook.setup.event_keys import LOOKS
from shuntbook.setup.faults import Faults
from shuntbook.setup.lines import Line, Values
from shuntbook.setup.toml_file import TomlFile

FILE = "looks.toml"
Looks = Mapping[str, tuple[str, ...]]


def lists_of(rows: Iterable[Values]) -> Looks:
    """Return `[[looks]]` rows as lists of checks by group, in order."""
    found: dict[str, list[str]] = {}
    for row in rows:
        found.setdefault(row["group"], []).append(row["check"])
    return {group: tuple(checks) for group, checks in found.items()}


def check_looks(lines: list[Line]) -> None:
    """Note a check that stands twice in a group."""
    seen: set[tuple[str, str]] = set()
    for line in lines:
        group, check = line["group"], line["check"]
        if check and (group, check) in seen:
            line.fault("check", f"{check!r} stands twice for {group}; keep one")
        seen.add((group, check))


@cache
def usual_looks() -> Looks:
    """Return the package's own lists."""
    faults = Faults()
    file = TomlFile(FILE, resources("shuntbook").joinpath("defaults", FILE).read_bytes(), faults)
    found = lists_of(line.values for line in file.lines(LOOKS))
    faults.raise_if_any()
    return found


def looks_in_force(own: Looks) -> Looks:
    """Return the lists that hold where a team brought its `own`: group by group, its own or the usual one."""
    return {**usual_looks(), **own}
