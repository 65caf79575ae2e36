"""The versions of one report: which replace which, which are heads, what lies below each.

B replaces A if B names A in `replaces`. Below A lies all that replaces it, directly or not. A is a head if
everything below A also has A below it, so that a ring of versions that replace each other stays.
"""

from collections.abc import Iterable

from msgspec import Struct

from shuntbook.report.entry import Entry
from shuntbook.report.kinds import ReportAmended, ReportWithdrawn


class Versions(Struct, frozen=True):
    """All versions of one report, by id, with `replaces` and `replaced_by` among those that are here."""

    by_id: dict[str, Entry]
    replaces: dict[str, list[str]]
    below: dict[str, frozenset[str]]

    @property
    def heads(self) -> list[str]:
        """The ids of the versions that stand, ascending."""
        if len(self.by_id) == 1:
            return [*self.by_id]
        return [version for version, below in self.below.items() if not below or self.is_head(version)]

    def is_head(self, version: str) -> bool:
        """Return whether nothing but ring mates replaces this version."""
        return all(version in self.below[other] for other in self.below[version])

    def overruling(self, version: str) -> list[str]:
        """Return the versions below this one that are not its ring mates."""
        return [other for other in self.below[version] if version not in self.below[other]]


def versions_of(entries: Iterable[Entry]) -> Versions:
    """Build the versions of one report from its entries, in any order."""
    by_id = {entry.id: entry for entry in sorted(entries, key=lambda entry: entry.id)}
    replaces = {name: _replaces(entry, by_id) for name, entry in by_id.items()}
    if not any(replaces.values()):
        return Versions(by_id, replaces, dict.fromkeys(by_id, frozenset()))  # nearly every report has one version
    replaced_by: dict[str, list[str]] = {name: [] for name in by_id}
    for name, older in replaces.items():
        for old in older:
            replaced_by[old].append(name)
    below = {name: _reachable(name, replaced_by) for name in by_id}
    return Versions(by_id, replaces, below)


def _replaces(entry: Entry, by_id: dict[str, Entry]) -> list[str]:
    if isinstance(entry.data, ReportAmended | ReportWithdrawn):
        return sorted({name for name in entry.data.replaces if name in by_id})
    return []


def _reachable(start: str, edges: dict[str, list[str]]) -> frozenset[str]:
    seen: set[str] = set()
    todo = list(edges[start])
    while todo:
        name = todo.pop()
        if name not in seen:
            seen.add(name)
            todo.extend(edges[name])
    return frozenset(seen)
