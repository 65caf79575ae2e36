"""Invents a season: event folders of hits, repairs that took longer or shorter than the table, and what is in between.

The same for the same seed. Everybody and everything in it is invented. Each operation has a pace of its own: that is
what the observed rates are to find again.
"""

import json
import math
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from importlib.resources import files as resources
from pathlib import Path
from random import Random
from typing import Any

from shuntbook.kit.ids import uuid7
from shuntbook.setup.folder import Setup, default_car_map, read_setup
from shuntbook.setup.rates import Operation

Json = dict[str, Any]
FIRST = datetime(2026, 3, 7, 8, tzinfo=UTC)
STAGES = 9
CARS = ("21", "22", "23")
PEOPLE = {
    "p-driver": ["driver"],
    "p-notes": ["co-driver"],
    "p-one": ["mechanic"],
    "p-two": ["mechanic"],
    "p-look": ["inspector"],
    "p-desk": ["manager"],
}
HITS_PER_KM = 0.09
"""Hits per timed km of a car: about two dozen an event."""


def season(folder: Path, events: int, entries: int, seed: int = 7) -> list[Path]:
    """Write so many event folders, of `entries` entries each (a few more where the damage alone is more)."""
    written = []
    for number in range(events):
        chance = Random(f"{seed}-{number}")
        path = folder / f"invented-{number + 1:02}"
        for name, data in event_files(number, chance).items():
            (path / name).parent.mkdir(parents=True, exist_ok=True)
            (path / name).write_bytes(data)
        setup = read_setup(event_files(number, Random(f"{seed}-{number}")))
        lines = [json.dumps(entry) for entry in Telling(setup, number, chance, seed).entries(entries)]
        (path / "entries.jsonl").write_text("".join(line + "\n" for line in lines))
        written.append(path)
    return written


def event_files(number: int, chance: Random) -> dict[str, bytes]:
    """Return the set-up files of one event, with the package's own rate table."""
    package = resources("shuntbook").joinpath("defaults", "rates")
    rates = {f"rates/{f.name}": f.read_bytes() for f in package.iterdir() if f.name.endswith((".csv", ".toml"))}
    parts = [line.split(",")[0] for line in rates["rates/parts.csv"].decode().splitlines()[1:] if line]
    van = "part,loaded\n" + "".join(f"{part},{chance.choice((0, 1, 2, 4))}\n" for part in parts)
    return {"event.toml": _event(number, chance).encode(), "van.csv": van.encode(), **rates}


def _event(number: int, chance: Random) -> str:
    lines = [f'event = "{name_of(number)}"', f'name = "Invented Rally {number + 1}"', 'timezone = "UTC"']
    for car in CARS[: 2 + number % 2]:
        lines += ["[[cars]]", f'car = "{car}"']
    for person, roles in PEOPLE.items():
        lines += ["[[people]]", f'person = "{person}"', f"roles = {json.dumps(roles)}"]
    for stage in range(1, STAGES + 1):
        lines += ["[[stages]]", f'stage = "SS{stage}"', f"km = {chance.randint(70, 220) / 10}"]
    for place, service in enumerate("ABC", start=1):
        arrive = FIRST + timedelta(days=14 * number, hours=3 * place)
        lines += [
            "[[services]]",
            f'service = "{service}"',
            f'after = "SS{3 * place}"',
            f"arrive = {arrive.isoformat()}",
        ]
        lines += ["minutes = 30", "in_and_out_minutes = 7"]
    # Nobody signs an invented entry.
    return "\n".join([*lines, "[trust]", 'signatures = "off"']) + "\n"


def name_of(number: int) -> str:
    """Return the name of the so-many-th event, from 0."""
    return f"invented-{number + 1:02}-2026"


def pace_of(operation: Operation, seed: int = 7) -> float:
    """Return how much longer than the table an operation takes this team in truth."""
    return math.exp(Random(f"{seed}-{operation.component}-{operation.condition}").gauss(0.12, 0.3))


class Telling:
    """Tells one event: who saw what, who fixed it in how long."""

    def __init__(self, setup: Setup, number: int, chance: Random, seed: int) -> None:
        self.setup, self.number, self.chance, self.seed = setup, number, chance, seed
        self.count = 0
        self.seqs: dict[str, int] = {}
        self.places = _likely_places(setup, seed)

    def entries(self, wanted: int) -> list[Json]:
        """Return the event's entries, filled up with readings to the wanted number."""
        found: list[Json] = []
        for car in self.setup.event.cars:
            for stage in self.setup.event.stages:
                for _ in range(self._poisson(float(stage.km) * HITS_PER_KM)):
                    found += self._hit(car, stage.stage)
        while len(found) < wanted:
            car = self.chance.choice(self.setup.event.cars)
            value = self.chance.randint(70, 110)
            found.append(self._entry("reading.taken", car, None, "p-notes", reading="oil", value=value, unit="°C"))
        return found

    def _hit(self, car: str, stage: str) -> Iterator[Json]:
        zone, component, condition = self.chance.choices(*self.places)[0]
        filed = self._entry(
            "report.filed", car, None, "p-notes", stage=stage, where="stage", zone=zone, cause="stone",
            findings=[{"component": component, "condition": condition}],
        )  # fmt: skip
        yield filed
        row = self.setup.rates.operation(component, condition, zone)
        if row and self.chance.random() < 0.9:
            yield from self._repair(car, f"{zone}/{component}", filed["id"], row)

    def _repair(self, car: str, job: str, finding: str, row: Operation) -> Iterator[Json]:
        temporary = self.chance.random() < 0.08
        parts = [] if temporary else [{"part": part, "qty": float(qty)} for part, qty in row.parts.items()]
        done = self._entry(
            "job.finished", car, job, "p-one", covers=[finding], action=row.action, minutes=self._minutes(row),
            mechanics=row.mechanics, parts=parts, temporary=temporary,
        )  # fmt: skip
        yield done
        zone, component = job.split("/")
        if self.setup.car_map.safety_critical(zone, component):
            covers = sorted([finding, done["id"]])
            yield self._entry("inspection.passed", car, job, "p-look", covers=covers, checks=[])

    def _minutes(self, row: Operation) -> float | None:
        """Return how long it took, to half minutes; None where nobody took the time, rarely a slip of the finger."""
        if self.chance.random() < 0.15:
            return None
        slip = 10 if self.chance.random() < 0.01 else 1
        took = float(row.minutes.expected) * pace_of(row, self.seed) * math.exp(self.chance.gauss(0, 0.25))
        return max(0.5, round(took * slip * 2) / 2)

    def _poisson(self, mean: float) -> int:
        """Return a Poisson count by Knuth's product of uniforms."""
        count, left = 0, self.chance.random()
        while left > math.exp(-mean):
            count, left = count + 1, left * self.chance.random()
        return count

    def _entry(self, kind: str, car: str, subject: str | None, person: str, **data: object) -> Json:
        self.count += 1
        at = FIRST + timedelta(days=14 * self.number, seconds=20 * self.count)
        device = f"d-{person}"
        self.seqs[device] = self.seqs.get(device, 0) + 1
        name = uuid7(int(at.timestamp() * 1000), self.count)
        return {
            "id": name, "v": 1, "kind": kind, "event": name_of(self.number), "car": car,
            "subject": name if kind == "report.filed" else subject, "at": at.isoformat(),
            "device": f"{device}-{self.number}", "seq": self.seqs[device], "person": person, "data": data,
        }  # fmt: skip


def _likely_places(setup: Setup, seed: int) -> tuple[list[tuple[str, str, str]], list[float]]:
    """Return what gets hit and how often: a few things all the time, most things rarely (weights 1, 1/2, 1/3 …)."""
    rows = {(component, condition) for component, condition, _ in setup.rates.operations}
    cage = {name for name, component in default_car_map().components.items() if component.group == "cage"}
    known = sorted(
        (zone.zone, component, condition)
        for zone in setup.car_map.zones.values()
        for component in zone.components
        for name, condition in rows
        if name == component and component not in cage and condition != "worn"
    )
    Random(f"{seed}-places").shuffle(known)
    return known, [1 / (place + 1) for place in range(len(known))]
