"""Check lists: what an inspector goes through at a look, by the group of the component."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files as resources

from shuntbook.setup.faults import Faults
from shuntbook.setup.toml_file import Reader, TomlFile

FILE = "looks.toml"
Looks = Mapping[str, tuple[str, ...]]


def read_looks(file: TomlFile) -> Looks:
    """Read `[[looks]]` rows of group and check into lists, in order; one that stands twice in a group is a fault."""
    found: dict[str, tuple[str, ...]] = {}
    for place, table in file.tables("looks"):
        reader = Reader(file, place, table)
        group, check = reader.text("group"), reader.text("check")
        if check in found.get(group, ()):
            reader.fault("check", f"{check!r} stands twice for {group}")
        found[group] = (*found.get(group, ()), check)
    return found


@cache
def usual_looks() -> Looks:
    """Return the package's own lists."""
    faults = Faults()
    file = TomlFile(FILE, resources("shuntbook").joinpath("defaults", FILE).read_bytes(), faults)
    found = read_looks(file)
    faults.raise_if_any()
    return found


def looks_in_force(own: Looks) -> Looks:
    """Return the lists that hold where a team brought its `own`: group by group, its own or the usual one."""
    return {**usual_looks(), **own}
