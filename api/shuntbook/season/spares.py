"""What to carry to the next event: for each part the stock that covers, its cost, and what is still to be bought."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from shuntbook.kit.errors import NotPossible
from shuntbook.kit.money import Currency, quantity, total, two_decimals
from shuntbook.season.demand import Demand, demand_of
from shuntbook.season.rounds import Held, rounds_of
from shuntbook.season.stock import MOST_CALLS, Calls, cover, from_few, from_rate
from shuntbook.setup.folder import Setup

COVERS = (90, 95, 99)
ENOUGH_EVENTS = 8
"""From so many events on the observed rate is taken as it is (common practice, no source); below, it is uncertain."""
ADVISED_FROM = 3
"""Below so many events one bad day would be advice: what was called for is counted, and no stock follows from it."""
MOST_BUNCHED = 2.0
"""Above this ratio of variance to mean the parts came in bunches and the stock covers less than it says."""


class Covered(Struct, frozen=True):
    """The stock that covers so many percent of such events, and what of it the van lacks; costs null where no price."""

    cover: int
    stock: float
    cost: str | None
    buy: float
    buy_cost: str | None


class SparePart(Struct, frozen=True):
    """A part that damage called for. bunched: in bunches: the stock covers less than it says."""

    part: str
    description: str
    unit_cost: str | None
    calls: int
    pieces: float
    expected: float
    bunched: bool
    van: float
    covers: list[Covered]


class CoverTotal(Struct, frozen=True):
    """What a cover costs, and what of it is still to be bought."""

    cover: int
    cost: str
    buy_cost: str


class ShoppingItem(Struct, frozen=True):
    """A part to buy."""

    part: str
    description: str
    qty: float
    cost: str | None


class Shopping(Struct, frozen=True):
    """The shopping list for the cover that was asked for."""

    cover: int
    items: list[ShoppingItem]
    cost: str


class Spares(Struct, frozen=True):
    """What to carry; car_km: what the counts were made over; model: how the next event's counts are thought to fall.

    `counts`: there are too few events to say; covers, totals and the list are empty.
    """

    event: str
    rates: str
    currency: str
    km: float
    cars: int
    cover: int
    events: int
    car_km: float
    model: Literal["poisson", "gamma-poisson", "counts"]
    parts: list[SparePart]
    never_called_for: int
    totals: list[CoverTotal]
    shopping: Shopping


@dataclass(frozen=True)
class Next:
    """The event to pack for: timed km, cars, and the cover in percent that the shopping list is for."""

    km: Decimal
    cars: int
    cover: int

    @property
    def exposure(self) -> Fraction:
        """Car-kilometres."""
        return Fraction(self.km) * self.cars


@dataclass(frozen=True)
class _Known:
    """What past events say of one part."""

    part: str
    pieces: Counter[Fraction]
    calls: int
    expected: Calls
    bunching: float | None


def spares(past: Sequence[Held], setup: Setup, used: Held | None, ahead: Next) -> Spares:
    """Return the stock that covers 90, 95 and 99 % part by part, priced and stocked by the event's set-up.

    past: the events held; those whose log is empty or that have no timed km say nothing. used: the event itself, whose
    repairs took parts out of its van. Errors: NotPossible where no event says anything, or too much is asked.
    """
    demands = [demand for held in past if (demand := demand_of(held)).exposure > 0]
    if not demands:
        raise NotPossible("no event held here has a log and timed km; what to carry follows from past damage")
    known = _known(demands, ahead)
    van = _in_van(setup, used)
    advised = len(demands) >= ADVISED_FROM
    covers = COVERS if advised else ()
    rows = [_row(one, setup, van.get(one.part, Fraction(0)), covers) for one in known]
    return Spares(
        event=setup.event.event,
        rates=setup.rates.version,
        currency=setup.rates.currency.code,
        km=two_decimals(Fraction(ahead.km)),
        cars=ahead.cars,
        cover=ahead.cover,
        events=len(demands),
        car_km=two_decimals(sum((demand.exposure for demand in demands), Fraction(0))),
        model=_model(len(demands)),
        parts=rows,
        never_called_for=len(setup.rates.parts.keys() - {one.part for one in known}),
        totals=[_total(rows, percent, setup.rates.currency) for percent in covers],
        shopping=_shopping(rows, ahead.cover, setup.rates.currency),
    )


def _model(events: int) -> Literal["poisson", "gamma-poisson", "counts"]:
    if events < ADVISED_FROM:
        return "counts"
    return "poisson" if events >= ENOUGH_EVENTS else "gamma-poisson"


def _known(demands: Sequence[Demand], ahead: Next) -> list[_Known]:
    exposure = float(sum((demand.exposure for demand in demands), Fraction(0)))
    found = []
    for part in sorted({part for demand in demands for part in demand.calls}):
        counts = [len(demand.calls.get(part, ())) for demand in demands]
        pieces = Counter(qty for demand in demands for qty in demand.calls.get(part, ()))
        calculate = from_rate if len(demands) >= ENOUGH_EVENTS else from_few
        expected = calculate(sum(counts), exposure, float(ahead.exposure))
        if expected.mean > MOST_CALLS:
            raise NotPossible(
                f"{ahead.cars} cars over {ahead.km} km is too far beyond what is known ({exposure:.0f} car-km); "
                "ask for fewer cars or km"
            )
        found.append(_Known(part, pieces, sum(counts), expected, _bunching(counts, demands)))
    return found


def _bunching(counts: Sequence[int], demands: Sequence[Demand]) -> float | None:
    """Return the index of dispersion: Σ(xᵢ − μᵢ)²/μᵢ ÷ (n − 1), about 1 for Poisson counts; None for one event."""
    if len(counts) < 2:
        return None
    rate = sum(counts) / sum(float(demand.exposure) for demand in demands)
    means = [rate * float(demand.exposure) for demand in demands]
    return sum((x - mean) ** 2 / mean for x, mean in zip(counts, means, strict=True)) / (len(counts) - 1)


def _in_van(setup: Setup, used: Held | None) -> dict[str, Fraction]:
    """Return what the van still holds: loaded less what repairs took, never below 0."""
    left = {part: Fraction(loaded) for part, loaded in setup.van.items()}
    for one in rounds_of(used) if used else ():
        for part, qty in one.fitted.items():
            left[part] = left.get(part, Fraction(0)) - qty
    return {part: max(Fraction(0), qty) for part, qty in left.items()}


def _row(one: _Known, setup: Setup, in_van: Fraction, covers: Sequence[int]) -> SparePart:
    part, coin = setup.rates.parts.get(one.part), setup.rates.currency
    unit = part.unit_cost if part else None
    stocks = cover(one.expected, one.pieces, [percent / 100 for percent in covers])
    each = sum((qty * count for qty, count in one.pieces.items()), Fraction(0)) / one.calls
    return SparePart(
        part=one.part,
        description=part.description if part else one.part,
        unit_cost=None if unit is None else coin.text(unit),
        calls=one.calls,
        pieces=quantity(each * one.calls),
        expected=two_decimals(Fraction(one.expected.mean) * each),
        bunched=one.bunching is not None and one.bunching > MOST_BUNCHED,
        van=quantity(in_van),
        covers=[
            _covered(percent, stock, max(Fraction(0), stock - in_van), unit, coin)
            for percent, stock in zip(covers, stocks, strict=True)
        ],
    )


def _covered(percent: int, stock: Fraction, buy: Fraction, unit: Decimal | None, coin: Currency) -> Covered:
    return Covered(
        cover=percent,
        stock=quantity(stock),
        cost=_cost(stock, unit, coin),
        buy=quantity(buy),
        buy_cost=_cost(buy, unit, coin),
    )


def _cost(qty: Fraction, unit: Decimal | None, coin: Currency) -> str | None:
    return None if unit is None else coin.text(coin.round(qty * Fraction(unit)))


def _total(rows: Sequence[SparePart], percent: int, coin: Currency) -> CoverTotal:
    cells = [cell for row in rows for cell in row.covers if cell.cover == percent]
    return CoverTotal(
        cover=percent,
        cost=coin.text(total(Decimal(cell.cost) for cell in cells if cell.cost)),
        buy_cost=coin.text(total(Decimal(cell.buy_cost) for cell in cells if cell.buy_cost)),
    )


def _shopping(rows: Sequence[SparePart], percent: int, coin: Currency) -> Shopping:
    items = [
        ShoppingItem(row.part, row.description, cell.buy, cell.buy_cost)
        for row in rows
        for cell in row.covers
        if cell.cover == percent and cell.buy > 0
    ]
    cost = total(Decimal(item.cost) for item in items if item.cost)
    return Shopping(percent, items, coin.text(cost))
