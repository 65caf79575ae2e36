"""The rounds of work of an event: the cost sheet's lines of jobs, as this package reads them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from shuntbook.cost.answer import CostLine, Costs, LineMoney
from shuntbook.report.body import Body
from shuntbook.report.entry import Entry
from shuntbook.report.working import JobFinished
from shuntbook.setup.folder import Setup


@dataclass(frozen=True)
class Held:
    """An event that is held: set-up, cost sheet (all cars), and the entries of all its cars."""

    setup: Setup
    sheet: Costs
    entries: Sequence[Entry]


@dataclass(frozen=True)
class Round:
    """One round of a job: a repair, or what is left of it (`repaired` false).

    minutes: elapsed as timed, None where not timed. called: parts by the rate table for the worst condition;
    fitted: parts by the repair itself; repairs: the `job.finished` itself. worn: all that is said behind it is wear.
    """

    car: str
    job: str
    zone: str
    component: str
    condition: str
    action: str
    entries: frozenset[str]
    repairs: frozenset[str]
    repaired: bool
    temporary: bool
    baseline: bool
    worn: bool
    minutes: Fraction | None
    mechanics: int | None
    called: Mapping[str, Fraction]
    fitted: Mapping[str, Fraction]


def rounds_of(held: Held) -> list[Round]:
    """Return the rounds of an event's jobs, access steps left out."""
    patches = {e.id for e in held.entries if isinstance(e.data, JobFinished) and e.data.temporary}
    causes = {e.id: e.data.cause for e in held.entries if isinstance(e.data, Body)}
    repairs = {e.id for e in held.entries if isinstance(e.data, JobFinished)}
    return [
        _round(line, patches, repairs, causes, held) for line in held.sheet.lines if line.kind in ("repair", "open")
    ]


def _round(line: CostLine, patches: set[str], repairs: set[str], causes: Mapping[str, str], held: Held) -> Round:
    entries, actual = set(line.entries), line.actual
    said = [causes[name] for name in entries if name in causes]
    row = held.setup.rates.operation(line.component or "", line.condition or "", line.zone or "")
    worn = line.condition == "worn" or bool(row and row.wear) or (bool(said) and set(said) == {"wear"})
    minutes = actual.minutes if actual is not None and actual.timed else None
    return Round(
        line.car,
        line.job or "",
        line.zone or "",
        line.component or "",
        line.condition or "",
        line.action,
        # Its own repair names the round, not the damage: two rounds of the same damage share the rest.
        frozenset(entries - repairs),
        frozenset(entries & repairs),
        line.kind == "repair",
        bool(entries & patches),
        line.baseline,
        worn,
        None if minutes is None else Fraction(str(minutes)),
        actual.mechanics if actual is not None else None,
        _quantities(line.estimate),
        _quantities(actual),
    )


def _quantities(money: LineMoney | None) -> dict[str, Fraction]:
    found: dict[str, Fraction] = {}
    for part in money.parts if money is not None else ():
        found[part.part] = found.get(part.part, Fraction(0)) + Fraction(str(part.qty))
    return found
