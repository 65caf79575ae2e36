"""A season at a glance: damage event by event, and estimate against actual minutes of each operation."""

from collections.abc import Iterable, Sequence
from decimal import Decimal
from fractions import Fraction

from msgspec import Struct

from shuntbook.cost.answer import ByZone, PerKm
from shuntbook.kit.money import Currency, two_decimals
from shuntbook.season.demand import stage_km
from shuntbook.season.rounds import Held, Round, rounds_of


class SeasonEvent(Struct, frozen=True):
    """The damage of one event."""

    event: str
    name: str
    began: str | None
    cars: int
    stage_km: float
    currency: str
    estimate: str
    actual: str
    per_stage_km: PerKm
    safety_critical: int
    jobs: int
    incidents: int
    by_zone: list[ByZone]


class SeasonZone(Struct, frozen=True):
    """A zone of the car map."""

    zone: str
    label: str


class SeasonOperation(Struct, frozen=True):
    """An operation that was timed: minutes expected by each job's own table, and elapsed."""

    component: str
    condition: str
    zone: str
    action: str
    timed: int
    estimate_minutes: float
    actual_minutes: float
    least_minutes: float
    most_minutes: float


class Season(Struct, frozen=True):
    """All events held, in the order they were held, and the operations that were timed."""

    events: list[SeasonEvent]
    zones: list[SeasonZone]
    operations: list[SeasonOperation]


def season(events: Iterable[Held]) -> Season:
    """Return the events in the order they were held, and the operations that were timed, most often timed first."""
    ordered = sorted(events, key=lambda held: (_began(held) or "9999", held.setup.event.event))
    return Season(
        events=[_event(held) for held in ordered],
        zones=_zones(ordered),
        operations=_operations(ordered),
    )


def _began(held: Held) -> str | None:
    """Return the day that the event began on: its first service, else its first entry; None where neither says."""
    arrivals = [service.arrive.date().isoformat() for service in held.setup.event.services if service.arrive]
    said = [entry.at[:10] for entry in held.entries]
    return min(arrivals or said, default=None)


def _event(held: Held) -> SeasonEvent:
    sheet, km = held.sheet, stage_km(held)
    rounds = [one for one in rounds_of(held) if not one.baseline]
    coin, totals = held.setup.rates.currency, sheet.totals
    return SeasonEvent(
        event=held.setup.event.event,
        name=held.setup.event.name,
        began=_began(held),
        cars=len({entry.car for entry in held.entries}),
        stage_km=two_decimals(km),
        currency=coin.code,
        estimate=totals.estimate,
        actual=totals.actual,
        per_stage_km=PerKm(_per_km(totals.estimate, km, coin), _per_km(totals.actual, km, coin)),
        safety_critical=len(_safety_critical(held, rounds)),
        jobs=len({(one.car, one.job) for one in rounds}),
        incidents=_incidents(held),
        by_zone=sheet.by_zone,
    )


def _per_km(amount: str, km: Fraction, coin: Currency) -> str | None:
    return coin.text(coin.round(Fraction(Decimal(amount)) / km)) if km else None


def _safety_critical(held: Held, rounds: Sequence[Round]) -> set[tuple[str, str]]:
    flagged = held.setup.car_map.safety_critical
    return {(one.car, one.job) for one in rounds if flagged(one.zone, one.component)}


def _incidents(held: Held) -> int:
    """Return how many hits the work goes back to."""
    lines = [line for line in held.sheet.lines if not line.baseline]
    return len({line.incident for line in lines if line.incident})


def _zones(events: Sequence[Held]) -> list[SeasonZone]:
    """Return the zones that anything happened to, in the order of the car maps, with their labels."""
    named = {row.zone for held in events for row in held.sheet.by_zone}
    labels = {zone.zone: zone.label for held in events for zone in held.setup.car_map.zones.values()}
    return [SeasonZone(zone, label) for zone, label in labels.items() if zone in named]


def _operations(events: Sequence[Held]) -> list[SeasonOperation]:
    """Return each operation's timed jobs: what its own event's table expected, and what it took."""
    pairs: dict[tuple[str, str, str, str], list[tuple[Fraction, Fraction]]] = {}
    for held in events:
        for one in rounds_of(held):
            row = held.setup.rates.operation(one.component, one.condition, one.zone)
            if row and one.minutes is not None and not (one.temporary or one.baseline) and one.action == row.action:
                key = (row.component, row.condition, row.zone, row.action)
                pairs.setdefault(key, []).append((row.minutes.expected, one.minutes))
    return [_operation(key, pairs[key]) for key in sorted(pairs, key=lambda key: (-len(pairs[key]), key))]


def _operation(key: tuple[str, str, str, str], pairs: Sequence[tuple[Fraction, Fraction]]) -> SeasonOperation:
    taken = [minutes for _, minutes in pairs]
    return SeasonOperation(
        *key,
        timed=len(pairs),
        estimate_minutes=two_decimals(sum((expected for expected, _ in pairs), Fraction(0)) / len(pairs)),
        actual_minutes=two_decimals(sum(taken, Fraction(0)) / len(pairs)),
        least_minutes=two_decimals(min(taken)),
        most_minutes=two_decimals(max(taken)),
    )
