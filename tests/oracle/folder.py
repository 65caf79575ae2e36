"""Reads the files of one event folder into plain dicts."""

import csv
import hashlib
import json
import tomllib
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path
from typing import Any


@dataclass
class Folder:
    """All that the rules need: set-up, car maps, rates, van, and the entries of one event.

    `entries` are those of the one car, `all_entries` those of all cars of the event; each id is there once. `count` is
    how many the car has, undone ones too. `package_lists` are the rows of the package's own check lists. Filled in
    later steps: `said`, what each version says, by its id; `work`, the starts and finishes that say who worked.
    """

    event: str
    car: str
    setup: dict[str, Any]
    car_map: dict[str, Any]
    package_map: dict[str, Any]
    operations: list[Any]
    access: dict[str, Any]
    parts: dict[str, Any]
    rates: dict[str, Any]
    rates_version: str
    loaded: dict[str, Any]
    all_entries: list[Any]
    entries: list[Any]
    count: int
    package_lists: list[Any] = field(default_factory=list)
    said: dict[str, Any] = field(default_factory=dict)
    work: list[Any] = field(default_factory=list)


def read_folder(folder: Path, event: str, car: str, default_car_map: Path | None) -> Folder:
    """Read the folder as it lies: the folder's own car map counts; where it has none, the package's own does."""
    package_map = read_toml(default_car_map) if default_car_map else {}
    own_map = folder / "car_map.toml"
    all_entries = [entry for entry in read_entries(folder / "entries.jsonl") if entry["event"] == event]
    entries = [entry for entry in all_entries if entry["car"] == car]
    return Folder(
        event=event,
        car=car,
        setup=read_toml(folder / "event.toml"),
        car_map=read_toml(own_map) if own_map.exists() else package_map,
        package_map=package_map,
        operations=read_csv(folder / "rates" / "operations.csv"),
        access={row["step"]: row for row in read_csv(folder / "rates" / "access.csv")},
        parts={row["part"]: row for row in read_csv(folder / "rates" / "parts.csv")},
        rates=read_toml(folder / "rates" / "rates.toml"),
        rates_version=rates_version(folder / "rates"),
        loaded={row["part"]: Decimal(row["loaded"]) for row in read_csv(folder / "van.csv")},
        all_entries=all_entries,
        entries=entries,
        count=len(entries),
        package_lists=lists_beside(default_car_map),
    )


def lists_beside(default_car_map: Path | None) -> list[Any]:
    """The rows of the package's check lists: looks.toml, which lies beside its car map."""
    path = default_car_map.parent / "looks.toml" if default_car_map else None
    rows: list[Any] = read_toml(path).get("looks", []) if path and path.exists() else []
    return rows


def read_toml(path: Path) -> dict[str, Any]:
    """A TOML file, its decimals as Decimal."""
    return tomllib.loads(path.read_text(encoding="utf-8"), parse_float=Decimal)


def read_csv(path: Path) -> list[Any]:
    """A CSV file's rows as dicts of text; a byte order mark is passed over; a file that is not there has no rows."""
    if not path.exists():
        return []
    with path.open(encoding="utf-8-sig", newline="") as lines:
        return list(csv.DictReader(lines))


def read_entries(path: Path) -> list[Any]:
    """Entries, one a line; a line that is there twice is one entry: the same set gives the same result."""
    by_id = {}
    for line in path.read_text(encoding="utf-8").split("\n"):
        if line.strip():
            entry = json.loads(line, parse_float=Decimal)
            by_id[entry["id"]] = entry
    return [by_id[one] for one in sorted(by_id)]


def rates_version(rates: Path) -> str:
    """The rate table's version: SHA-256 of the bytes of its CSV and TOML files, one after the other in name order."""
    names = sorted(path.name for path in rates.iterdir() if path.name.endswith((".csv", ".toml")))
    return hashlib.sha256(b"".join((rates / name).read_bytes() for name in names)).hexdigest()


def roles_of(setup: dict[str, Any], person: str) -> list[Any]:
    """The roles that the set-up as it is now gives a person; none to somebody it does not know."""
    for one in setup.get("people", []):
        if one["person"] == person:
            answer: list[Any] = one.get("roles", [])
            return answer
    return []
