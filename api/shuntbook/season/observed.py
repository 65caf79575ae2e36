"""Better rates: per operation the minutes that were observed, drawn towards the team's pace, and a suggestion.

A timed job is its ratio: elapsed minutes ÷ the table's expected minutes. The ratios of an operation are drawn towards
those of all operations (see `credibility`), each job of weight 1: what was timed often is believed, what was timed
twice mostly follows the pace of the team. Nothing changes by itself: a manager accepts, or does not.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor
from statistics import median
from typing import get_args

from msgspec import Struct

from shuntbook.kit.money import two_decimals
from shuntbook.season.credibility import Credibility, credibility
from shuntbook.season.rounds import Held
from shuntbook.season.timed import (
    Apart,
    Minutes,
    OperationKey,
    OperationName,
    Timed,
    Why,
    named,
    points,
    timed_jobs,
)
from shuntbook.setup.event import Event
from shuntbook.setup.rates import Rates, ThreePoint

LEAST_TIMED = 2
"""An operation timed once says more of that day than of the operation."""
LEAST_CHANGE = Fraction(1, 10)
"""A table is not worth changing for less (common practice, no source)."""
HALF = Fraction(1, 2)


class ObservedOperation(OperationName, frozen=True):
    """What was timed of an operation. ratio: elapsed ÷ expected minutes, the mean of its jobs; ratio_estimate: drawn
    towards the team's pace, by as much as `credibility` (0 to 1) lacks of 1."""

    timed: int
    minutes_mean: float
    minutes_median: float
    table: Minutes
    credibility: float | None
    ratio: float | None
    ratio_estimate: float | None
    suggested: Minutes | None
    says: str


class Temporary(OperationName, frozen=True):
    """Temporary repairs that were timed: they say nothing of the operation itself."""

    timed: int
    minutes_mean: float


class Method(Struct, frozen=True):
    """How it was calculated. pace: the ratio of all operations together; within, between: variances of the ratio."""

    name: str
    pace: float | None
    within: float | None
    between: float | None


class Observed(Struct, frozen=True):
    """What the timed jobs of all events held say of an event's rate table; far_off: entries to look at."""

    event: str
    rates: str
    events: int
    timed: int
    apart: Apart
    far_off: list[str]
    method: Method
    operations: list[ObservedOperation]
    temporary: list[Temporary]


@dataclass(frozen=True)
class Seen:
    """What the timed jobs say of one rate table."""

    rates: Rates
    events: int
    timed: Timed
    figures: Credibility[OperationKey] | None

    def suggestion(self, key: OperationKey) -> ThreePoint | None:
        """Return the minutes that the table would have, or None where there is too little to say so.

        Best, likely and worst are scaled alike, so that the expected minutes become the estimate × what they were,
        then rounded to half minutes.
        """
        if self.figures is None or len(self.figures.means) < 2 or len(self.timed.minutes[key]) < LEAST_TIMED:
            return None
        ratio, before = self.figures.estimate(key), self.rates.operations[key].minutes
        after = ThreePoint(*(to_half(ratio * m) for m in (before.best, before.likely, before.worst)))
        return after if abs(ratio - 1) > LEAST_CHANGE and after != before else None

    def suggestions(self) -> dict[OperationKey, ThreePoint]:
        """Return all that is suggested, by operation."""
        found = {key: self.suggestion(key) for key in sorted(self.timed.minutes)}
        return {key: minutes for key, minutes in found.items() if minutes is not None}


def observe(events: Sequence[Held], rates: Rates) -> Seen:
    """Return what the timed jobs of all events say of a rate table."""
    timed = timed_jobs(events, rates)
    ratios = {
        key: [(minutes / rates.operations[key].minutes.expected, Fraction(1)) for minutes in group]
        for key, group in timed.minutes.items()
    }
    return Seen(rates, len(events), timed, credibility(ratios) if ratios else None)


def to_half(minutes: Fraction) -> Fraction:
    """Return minutes rounded to half minutes, half up, never below a half."""
    return max(HALF, Fraction(floor(minutes * 2 + HALF), 2))


def observed_answer(observed: Seen, event: Event) -> Observed:
    """Return the answer: how it was calculated, the operations that were timed, what is suggested."""
    figures, timed, rates = observed.figures, observed.timed, observed.rates
    return Observed(
        event=event.event,
        rates=rates.version,
        events=observed.events,
        timed=sum(len(group) for group in timed.minutes.values()),
        apart=Apart(**{why: timed.apart[why] for why in get_args(Why)}),
        far_off=timed.far_off,
        method=Method(
            name="Bühlmann–Straub credibility, empirical Bayes (Klugman, Panjer & Willmot, Loss Models)",
            pace=_number(figures.collective if figures else None),
            within=_number(figures.within if figures else None),
            between=_number(figures.between if figures else None),
        ),
        operations=[_operation(observed, key) for key in sorted(timed.minutes)],
        temporary=[
            Temporary(*named(rates.operations[key]), timed=len(group), minutes_mean=two_decimals(_mean(group)))
            for key, group in sorted(timed.patches.items())
        ],
    )


def _number(value: Fraction | None) -> float | None:
    return None if value is None else round(float(value), 4)


def _operation(observed: Seen, key: OperationKey) -> ObservedOperation:
    row, minutes = observed.rates.operations[key], observed.timed.minutes[key]
    figures, after = observed.figures, observed.suggestion(key)
    return ObservedOperation(
        *named(row),
        timed=len(minutes),
        minutes_mean=two_decimals(_mean(minutes)),
        minutes_median=two_decimals(median(minutes)),
        table=points(row.minutes),
        credibility=_number(figures.factors[key] if figures else None),
        ratio=_number(figures.means[key] if figures else None),
        ratio_estimate=_number(figures.estimate(key) if figures else None),
        suggested=points(after) if after else None,
        says=_says(len(minutes), _mean(minutes), row.minutes, after),
    )


def _says(times: int, mean: Fraction, before: ThreePoint, after: ThreePoint | None) -> str:
    often = "once" if times == 1 else f"{times} times"
    facts = f"Timed {often}, {_short(mean)} min on average where the table expects {_short(before.expected)}"
    return f"{facts}: the table would become {_short(after.expected)}." if after else f"{facts}: no change suggested."


def _short(minutes: Fraction) -> str:
    return f"{float(two_decimals(minutes)):.1f}".removesuffix(".0")


def _mean(minutes: Sequence[Fraction]) -> Fraction:
    return sum(minutes, Fraction(0)) / len(minutes)
