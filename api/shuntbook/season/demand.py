"""What damage called for, part by part: not what happened to be in the van.

Rounds of one job that share a finding (a patch, later the real repair, what is left) are one call. It is for the
greater of what the rate table names for the worst condition and what a repair fitted: the first says what was wanted
where the van had none, the second what opening the car up showed. Wear and what was there at the hand-over are left
out. (Common practice, no source.)
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from shuntbook.season.rounds import Held, Round, rounds_of


@dataclass(frozen=True)
class Demand:
    """What one event called for: exposure in car-kilometres; calls: part → the pieces of each call."""

    event: str
    exposure: Fraction
    calls: dict[str, list[Fraction]]


def demand_of(held: Held) -> Demand:
    """Return what an event called for. Exposure: its timed km × the cars that its log speaks of."""
    calls: dict[str, list[Fraction]] = {}
    for group in _same_damage(r for r in rounds_of(held) if not r.baseline and not r.worn):
        for part, qty in sorted(_wanted(group).items()):
            calls.setdefault(part, []).append(qty)
    cars = {entry.car for entry in held.entries}
    return Demand(held.setup.event.event, stage_km(held) * len(cars), calls)


def stage_km(held: Held) -> Fraction:
    """Return the timed km of an event."""
    return Fraction(sum((stage.km for stage in held.setup.event.stages), Decimal(0)))


def _wanted(group: Sequence[Round]) -> dict[str, Fraction]:
    wanted: dict[str, Fraction] = {}
    for one in group:
        for quantities in (one.called, one.fitted):
            for part, qty in quantities.items():
                wanted[part] = max(wanted.get(part, Fraction(0)), qty)
    return {part: qty for part, qty in wanted.items() if qty > 0}


def _same_damage(rounds: Iterable[Round]) -> list[list[Round]]:
    """Return the rounds in groups that share a finding, directly or by way of others of the same job."""
    by_job: dict[tuple[str, str], list[tuple[frozenset[str], list[Round]]]] = {}
    for one in rounds:
        groups = by_job.setdefault((one.car, one.job), [])
        near = [group for group in groups if group[0] & one.entries]
        entries = one.entries.union(*(group[0] for group in near))
        members = [member for group in near for member in group[1]]
        by_job[one.car, one.job] = [*(g for g in groups if g not in near), (entries, [*members, one])]
    return [members for groups in by_job.values() for _, members in groups]
