"""The cost sheet as phones, files and documents read it; money as text with the currency's decimals."""

from typing import Literal

from msgspec import Struct

from shuntbook.cost import money
from shuntbook.cost.access import Share
from shuntbook.cost.adjusted import Adjustment
from shuntbook.cost.lines import Line
from shuntbook.kit.money import Currency, quantity, two_decimals


class PartCost(Struct, frozen=True):
    """A part of a cost line; unit_cost is null where the rate table has no such part."""

    part: str
    qty: float
    unit_cost: str | None


class LineMoney(Struct, frozen=True):
    """Minutes and money of a cost line; minutes null and timed false where nobody took the time."""

    minutes: float | None
    mechanics: int | None
    timed: bool
    timed_by: money.TimedBy
    worked: list[money.Worked]
    labour: str
    parts: list[PartCost]
    parts_cost: str
    consumables: str
    total: str


class Spent(Struct, frozen=True):
    """Money expected and spent."""

    estimate: str
    actual: str


class PerKm(Struct, frozen=True):
    """Money a stage kilometre; null where the itinerary has none."""

    estimate: str | None
    actual: str | None


class CostLine(Struct, frozen=True):
    """One round of a job, what no repair covers, or an access step of a service."""

    line: str
    kind: Literal["repair", "open", "access"]
    car: str
    job: str | None
    step: str | None
    zone: str | None
    component: str | None
    stage: str | None
    day: str | None
    driver: str | None
    incident: str | None
    service: str | None
    action: str
    condition: str | None
    temporary: bool
    baseline: bool
    entries: list[str]
    estimate: LineMoney
    actual: LineMoney | None
    access_share: Spent


class Sums(Struct, frozen=True, kw_only=True):
    """Sums of some job lines with the access that they bear; before_tax = actual + adjustments.

    What they are sums of stands first in JSON: keyword-only fields of a base follow a class's own.
    """

    estimate: str
    actual: str
    adjustments: str
    before_tax: str


class ByCar(Sums, frozen=True):
    """Sums of one car; null for corrections that no line is about."""

    car: str | None


class ByDay(Sums, frozen=True):
    """Sums of the hits of one day, in the event's time zone."""

    day: str | None


class ByStage(Sums, frozen=True):
    """Sums of one stage; null for what belongs to none."""

    stage: str | None


class ByZone(Sums, frozen=True):
    """Sums of one zone."""

    zone: str | None


class ByComponent(Sums, frozen=True):
    """Sums of one component, in all zones."""

    component: str | None


class ByDriver(Sums, frozen=True):
    """Sums of the hits while one person drove; null where nobody said who."""

    driver: str | None


class CostTotals(Struct, frozen=True):
    """Totals of a cost sheet; total = before_tax + tax."""

    estimate: str
    consumables: str
    actual: str
    adjustments: str
    before_tax: str
    tax: str
    total: str


class Costs(Struct, frozen=True):
    """The cost sheet of an event or of one car."""

    event: str
    car: str | None
    rates: str
    currency: str
    tax_percent: float
    consumables_percent: float
    lines: list[CostLine]
    adjustments: list[Adjustment]
    by_car: list[ByCar]
    by_day: list[ByDay]
    by_stage: list[ByStage]
    by_zone: list[ByZone]
    by_component: list[ByComponent]
    by_driver: list[ByDriver]
    stage_km: float
    per_stage_km: PerKm
    baseline: Spent
    totals: CostTotals


class ToldMoney:
    """Minutes and money as they are answered: what several lines have in common, as estimates are, is made once."""

    def __init__(self, coin: Currency) -> None:
        self.coin = coin
        self._made: dict[int, tuple[money.Money, LineMoney]] = {}

    def of(self, of_line: money.Money) -> LineMoney:
        """Return a line's money in words and numbers of JSON."""
        made = self._made.get(id(of_line))
        if made is None:
            made = self._made[id(of_line)] = of_line, _money(of_line, self.coin)
        return made[1]


def cost_line(line: Line, share: Share, told: ToldMoney) -> CostLine:
    """Return one line with its estimate and actual, and the share of the access lines that its job bears."""
    return CostLine(
        line=line.name,
        kind=line.kind,
        car=line.car,
        job=line.job or None,
        step=line.step or None,
        zone=line.zone or None,
        component=line.component or None,
        stage=line.stage,
        day=line.day.isoformat() if line.day else None,
        driver=line.driver,
        incident=line.incident,
        service=line.service,
        action=line.action,
        condition=line.condition or None,
        temporary=line.temporary,
        baseline=line.baseline,
        entries=list(line.entries),
        estimate=told.of(line.estimate),
        actual=told.of(line.actual) if line.actual else None,
        access_share=Spent(told.coin.text(share.estimate), told.coin.text(share.actual)),
    )


def _money(of_line: money.Money, coin: Currency) -> LineMoney:
    return LineMoney(
        minutes=None if of_line.minutes is None else two_decimals(of_line.minutes),
        mechanics=of_line.mechanics,
        timed=of_line.timed_by == "entered",
        timed_by=of_line.timed_by,
        worked=list(of_line.worked),
        labour=coin.text(of_line.labour),
        parts=[
            PartCost(p.part, quantity(p.qty), None if p.unit_cost is None else coin.text(p.unit_cost))
            for p in of_line.parts
        ],
        parts_cost=coin.text(of_line.parts_cost),
        consumables=coin.text(of_line.consumables),
        total=coin.text(of_line.total),
    )
