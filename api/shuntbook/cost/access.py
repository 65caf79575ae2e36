"""Access steps as cost lines, each counted once a service, and their money shared out among the jobs that need them.

The rule: a step's mechanic-minutes are shared in proportion to the estimated mechanic-minutes of the lines that need
it; its money likewise, to the currency's minor unit, the units left over going to the largest remainders (the
largest-remainder method), equal ones in the order of the lines' names. Nobody pays twice for one wheel off.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import partial
from math import lcm

from msgspec import Struct

from shuntbook.cost.lines import Line
from shuntbook.cost.money import money_of
from shuntbook.kit.kept import Kept
from shuntbook.kit.money import Currency
from shuntbook.queue.totals import AccessLine, access_lines
from shuntbook.setup.rates import Rates


class Share(Struct, frozen=True):
    """A job line's part of the access lines: exact mechanic-minutes, and money."""

    mechanic_minutes: Fraction = Fraction(0)
    estimate: Decimal = Decimal(0)
    actual: Decimal = Decimal(0)

    def __add__(self, other: "Share") -> "Share":
        return Share(
            self.mechanic_minutes + other.mechanic_minutes, self.estimate + other.estimate, self.actual + other.actual
        )


@dataclass(frozen=True)
class Group:
    """What is opened at one service, or at none: its lines, and of each in turn who bears how much."""

    lines: list[Line]
    shares: list[tuple[str, Share]]


@dataclass(frozen=True)
class Opened:
    """The access lines of a car and each job line's share of them, by the line's name."""

    lines: list[Line]
    shares: dict[str, Share]


def open_up(
    car: str, lines: Sequence[Line], rates: Rates, days: dict[str, date], kept: Kept[Group] | None = None
) -> Opened:
    """Return a line for each access step of a service, once for the car or once a zone, and who bears it.

    Steps of open lines are together under no service: nobody knows yet where they will be done. `days`: of services.
    kept: groups by service, of the same car and rates.
    """
    kept = kept or Kept()
    groups: dict[tuple[bool, str], list[Line]] = {}
    for line in lines:
        groups.setdefault((line.actual is not None, line.service or ""), []).append(line)
    found: list[Line] = []
    shares: dict[str, Share] = {}
    for (done, service), members in sorted(groups.items()):
        day = days.get(service) if done else None
        opened = partial(_opened, car, members, rates, done=done, service=service, day=day)
        group = kept.of((done, service), ([id(line) for line in members], members, day), opened)
        found += group.lines
        for name, share in group.shares:
            shares[name] = shares[name] + share if name in shares else share
    return Opened(found, shares)


def _opened(car: str, members: Sequence[Line], rates: Rates, *, done: bool, service: str, day: date | None) -> Group:
    """Return the access lines of one service, and who bears them."""
    lines: list[Line] = []
    shares: list[tuple[str, Share]] = []
    by_step = _by_step(members, rates)
    pairs = [(step, line.zone) for line in members for step in line.steps]
    for item in access_lines(pairs, rates):
        needing = by_step[item.step.step, item.zone]
        minutes = item.step.minutes_open + item.step.minutes_close
        money = money_of(rates, item.step.mechanics, item.mechanic_minutes, minutes=minutes)
        line = Line(
            kind="access",
            car=car,
            job="",
            zone=item.zone,
            entries=tuple(sorted({entry for line in needing for entry in line.entries})),
            estimate=money,
            actual=money if done else None,
            action=item.step.step,
            step=item.step.step,
            service=service if done and service else None,
            day=day,
            baseline=all(line.baseline for line in needing),
        )
        lines.append(line)
        shares += _shared(item, needing, money.total, done, rates.currency)
    return Group(lines, shares)


def apportion(amount: Decimal, weights: Sequence[Fraction], coin: Currency) -> list[Decimal]:
    """Share an amount of 0 or more in proportion to weights, to the minor unit, by the largest-remainder method.

    The parts add up to the amount.
    """
    unit = Decimal(1).scaleb(-coin.decimals)
    units = int(amount / unit)
    parts = in_whole_numbers(weights)
    whole = sum(parts)
    given = [units * part // whole for part in parts]
    order = sorted(range(len(parts)), key=lambda place: (-(units * parts[place] % whole), place))
    for place in order[: units - sum(given)]:
        given[place] += 1
    return [share * unit for share in given]


def in_whole_numbers(weights: Sequence[Fraction]) -> list[int]:
    """Return whole numbers in the same proportion: thousands are added and divided much sooner than fractions."""
    below = lcm(*{weight.denominator for weight in weights})
    return [weight.numerator * (below // weight.denominator) for weight in weights]


def _by_step(members: Iterable[Line], rates: Rates) -> dict[tuple[str, str], list[Line]]:
    """Return which lines need each step: all of the car's, or where it is opened once a zone those of the zone."""
    needing: dict[tuple[str, str], list[Line]] = {}
    for line in members:
        for step in set(line.steps):
            needing.setdefault((step, line.zone if rates.access[step].per == "zone" else ""), []).append(line)
    return needing


def _shared(
    item: AccessLine, needing: Sequence[Line], amount: Decimal, done: bool, coin: Currency
) -> list[tuple[str, Share]]:
    """Return the shares of those whose work is new; of what was there before only where nothing is."""
    bearing = [line for line in needing if not line.baseline] or list(needing)
    bearing.sort(key=lambda line: line.name)
    weights = [line.estimate.mechanic_minutes for line in bearing]
    if not any(weights):
        weights = [Fraction(1)] * len(bearing)
    numbers = in_whole_numbers(weights)
    each = item.mechanic_minutes / sum(numbers)
    money = apportion(amount, weights, coin)
    return [
        (line.name, Share(each * number, part, part if done else Decimal(0)))
        for line, number, part in zip(bearing, numbers, money, strict=True)
    ]
