"""The finished jobs that were timed, by operation of a rate table; what cannot be compared is counted apart."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from shuntbook.season.rounds import Held, Round, rounds_of
from shuntbook.setup.rates import Operation, Rates

FAR_OFF = 5
"""A time beyond 1/5 to 5 times the table's is no pace but a slip of the finger or a clock left running (common
practice, no source): left out of the arithmetic, counted, and its entries named."""
OperationKey = tuple[str, str, str]
"""Component, condition, zone as in the table ("" where the row holds in any zone)."""
APART = ("not_timed", "temporary", "no_row", "another_action", "another_crew", "far_off")


@dataclass(frozen=True)
class Timed:
    """What was timed: minutes by operation, patches apart, and what was left out and why."""

    minutes: dict[OperationKey, list[Fraction]]
    patches: dict[OperationKey, list[Fraction]]
    apart: dict[str, int] = field(default_factory=lambda: dict.fromkeys(APART, 0))
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


def _why_apart(one: Round, row: Operation | None) -> str | None:
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
