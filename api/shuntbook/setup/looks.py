"""Check lists: what an inspector goes through at an inspection, by the group of the component."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files as resources

from shuntbook.setup.event_keys import LOOKS
from shuntbook.setup.faults import Faults
from shuntbook.setup.lines import Line, Values, picked
from shuntbook.setup.toml_file import TomlFile

FILE = "looks.toml"


@dataclass(frozen=True)
class ListedCheck:
    """A row of a check list; `must`: no pass counts on a job of the group where it is not ok; `at`: where it is made.

    at: `air` (car on stands), `off` (wheel off), `ground`, or "" where that is not said.
    """

    check: str
    must: bool = False
    at: str = ""


Looks = Mapping[str, tuple[ListedCheck, ...]]


def lists_of(rows: Iterable[Values]) -> Looks:
    """Return `[[looks]]` rows as lists of checks by group, in order."""
    found: dict[str, list[ListedCheck]] = {}
    for row in rows:
        found.setdefault(row["group"], []).append(ListedCheck(**picked(ListedCheck, row)))
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


def must_checks(own: Looks, group: str | None) -> frozenset[str]:
    """Return the checks that a pass on a job of `group` must have ok, by the lists in force."""
    rows = own.get(group or "") or usual_looks().get(group or "", ())
    return frozenset(row.check for row in rows if row.must)
