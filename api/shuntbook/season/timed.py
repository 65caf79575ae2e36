"""The finished jobs that were timed, by operation of a rate table; what cannot be compared is counted apart."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from shuntbook.kit.money import two_decimals
from shuntbook.season.rounds import Held, Round, rounds_of
from shuntbook.setup.rates import Operation, Rates, ThreePoint

FAR_OFF = 5
"""A time beyond 1/5 to 5 times the table's is no pace but a slip of the finger or a clock left running (common
practice, no source): left out of the arithmetic, counted, and its entries named."""
OperationKey = tuple[str, str, str]
"""Component, condition, zone as in the table ("" where the row holds in any zone)."""
Why = Literal["not_timed", "temporary", "no_row", "another_action", "another_crew", "far_off"]


class Apart(Struct, frozen=True):
    """How many finished jobs were left out, and why."""

    not_timed: int
    temporary: int
    no_row: int
    another_action: int
    another_crew: int
    far_off: int


class Minutes(Struct, frozen=True):
    """Three-point minutes of an operation and their expected value."""

    minutes_best: float
    minutes_likely: float
    minutes_worst: float
    minutes_expected: float


class OperationName(Struct, frozen=True):
    """An operation of the rate table; zone is "" where the row holds in any zone."""

    component: str
    condition: str
    action: str
    zone: str


class ChangedOperation(OperationName, frozen=True):
    """An operation's minutes before and after."""

    before: Minutes
    after: Minutes


class Accepted(Struct, frozen=True):
    """The new rate table's version, the one before, the events it is in force for, and what changed."""

    rates: str
    before: str
    events: list[str]
    operations: list[ChangedOperation]


def points(minutes: ThreePoint) -> Minutes:
    """Return three-point minutes and their expected value as numbers."""
    return Minutes(*map(two_decimals, (minutes.best, minutes.likely, minutes.worst, minutes.expected)))


def changed_operation(before: Operation, after: Operation) -> ChangedOperation:
    """Return what became of an operation's minutes."""
    return ChangedOperation(*named(after), before=points(before.minutes), after=points(after.minutes))


def named(row: Operation) -> tuple[str, str, str, str]:
    """Return the fields of an operation's name."""
    return row.component, row.condition, row.action, row.zone


@dataclass(frozen=True)
class Timed:
    """What was timed: minutes by operation, patches apart, and what was left out and why."""

    minutes: dict[OperationKey, list[Fraction]]
    patches: dict[OperationKey, list[Fraction]]
    apart: Counter[Why] = field(default_factory=Counter)
    far_off: list[str] = field(default_factory=list)


def timed_jobs(events: Iterable[Held], rates: Rates) -> Timed:
    """Return the timed repairs of all events as the operations of one rate table.

    Elapsed minutes compare only for the same work by as many hands: a repair that was another action than the row's,
    or by another number of mechanics, is left out. Temporary repairs are apart: a strap is quicker than an arm.
    """
    found = Timed({}, {})
    for held in events:
        for one in rounds_of(held):
            if one.repaired and not one.baseline:
                _sort_in(one, rates.operation(one.component, one.condition, one.zone), found)
    return found


def _sort_in(one: Round, row: Operation | None, found: Timed) -> None:
    reason = _why_apart(one, row)
    if reason:
        found.apart[reason] += 1
    if row is None or one.minutes is None:
        return
    key = (row.component, row.condition, row.zone)
    if reason == "temporary":
        found.patches.setdefault(key, []).append(one.minutes)
    elif reason == "far_off":
        found.far_off.extend(sorted(one.repairs))
    elif reason is None:
        found.minutes.setdefault(key, []).append(one.minutes)


def _why_apart(one: Round, row: Operation | None) -> Why | None:
    if one.minutes is None:
        return "not_timed"
    if one.temporary:
        return "temporary"
    if row is None:
        return "no_row"
    if one.action != row.action:
        return "another_action"
    if one.mechanics is not None and one.mechanics != row.mechanics:
        return "another_crew"
    ratio = one.minutes / row.minutes.expected
    return None if Fraction(1, FAR_OFF) <= ratio <= FAR_OFF else "far_off"
