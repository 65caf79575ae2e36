"""Makes the entries of a random event one by one, each with its id, device, counter and clock."""

import hashlib
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta, timezone
from random import Random
from typing import Any

from .carmap import Mapped
from .entries import VERSION_KINDS
from .findings import said_by
from .setups import Setup

# Device clocks: two near the truth, one that fell back to 1970, one in 2099.
CLOCKS = {
    "d-1": datetime(2026, 5, 16, 8, tzinfo=UTC),
    "d-2": datetime(2026, 5, 16, 9, 1, tzinfo=UTC),
    "d-3": datetime(1970, 1, 1, tzinfo=UTC),
    "d-4": datetime(2099, 12, 31, 23, 0, tzinfo=UTC),
}
OFFSETS = [timezone(timedelta(hours=2)), UTC, timezone(timedelta(hours=-3, minutes=-30))]
SUBJECT_OF_CAR = None


@dataclass
class Log:
    """The entries so far, and what they are about; `naming` lists by (car, key) the versions that say it."""

    chance: Random
    setup: Setup
    entries: list[Any] = field(default_factory=list)
    naming: dict[tuple[str, str], list[str]] = field(default_factory=dict)
    seqs: dict[str, int] = field(default_factory=lambda: dict.fromkeys(CLOCKS, 0))

    def new_id(self, device: str) -> str:
        """A UUIDv7 by the device's clock (RFC 9562, 5.7)."""
        milliseconds = int(self.now(device).timestamp() * 1000) + self.chance.randint(0, 999)
        bits = milliseconds << 80 | 7 << 76 | self.chance.getrandbits(12) << 64 | 2 << 62 | self.chance.getrandbits(62)
        text = f"{bits:032x}"
        return "-".join([text[:8], text[8:12], text[12:16], text[16:20], text[20:]])

    def now(self, device: str) -> datetime:
        """What the device's clock shows: half a minute goes by with each entry."""
        return CLOCKS[device] + timedelta(seconds=30 * len(self.entries))

    def add(
        self, kind: str, car: str, subject: str | None, data: dict[str, Any], person: str, own_id: str | None = None
    ) -> dict[str, Any]:
        """Write one entry; a filed report is its own subject."""
        device = self.chance.choice(sorted(CLOCKS))
        self.seqs[device] += 1
        entry_id = own_id or self.new_id(device)
        entry = {
            "id": entry_id, "v": 1, "kind": kind, "event": self.setup.event, "car": car,
            "subject": entry_id if kind == "report.filed" else subject,
            "at": self.now(device).astimezone(self.chance.choice(OFFSETS)).isoformat(),
            "device": device, "seq": self.seqs[device], "person": person, "data": data,
        }  # fmt: skip
        if self.chance.random() < 0.05:
            entry |= {"said_at": "2026-05-16T07:55:00+02:00", "of_a_later_version": {"kept": [1, None, "ä"]}}
        self.entries.append(entry)
        self.note(entry)
        return entry

    def note(self, entry: dict[str, Any]) -> None:
        """Remember which keys a version says, so that closing entries can cover them."""
        if entry["kind"] in VERSION_KINDS:
            for one in said_by(Mapped(self.setup.car_map), entry):
                self.naming.setdefault((entry["car"], one.key), []).append(entry["id"])

    def versions(self, car: str) -> list[Any]:
        """The versions of the car's reports so far."""
        return [one for one in self.entries if one["car"] == car and one["kind"] in VERSION_KINDS]

    def keys(self, car: str) -> list[Any]:
        """The keys that the car's reports say so far."""
        return sorted(key for owner, key in self.naming if owner == car)

    def on_job(self, car: str, key: str, *kinds: str) -> list[Any]:
        """The ids of entries of these kinds on a job so far."""
        return [
            one["id"] for one in self.entries if (one["car"], one["subject"]) == (car, key) and one["kind"] in kinds
        ]

    def photo(self) -> str:
        """One of a few photos' hashes."""
        return hashlib.sha256(bytes([self.chance.randint(0, 20)])).hexdigest()
