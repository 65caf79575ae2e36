"""The cost statement of an event: every line, the sums by what they are of, the adjustments, tax and total."""

from collections.abc import Sequence
from datetime import UTC, datetime
from decimal import Decimal

from shuntbook.cost.adjusted import Adjustment
from shuntbook.cost.answer import CostLine, Costs
from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import paper_named
from shuntbook.document.drawing import car_drawing, steps_of
from shuntbook.document.heading import CHECKED, NOT_OURS, made_of, spoken
from shuntbook.document.photo_index import photo_index
from shuntbook.document.wording import Wording, sentence
from shuntbook.setup.folder import Setup
from shuntbook.setup.words import split_key

GROUPS = ("car", "day", "stage", "zone", "component", "driver")
"""What a cost sheet is summed by: `by_car` and so on."""
BY = {
    "car": ("By car", "Car"),
    "day": ("By day", "Day"),
    "stage": ("By stage", "Stage"),
    "zone": ("By place on the car", "Place on the car"),
    "component": ("By component", "Component"),
    "driver": ("By driver", "Driver"),
}
NOWHERE = {"driver": "not said who drove", "stage": "on no stage", "day": "no day"}
GROUP_MONEY = ("estimate", "actual", "adjustments", "before_tax")
SUMS = {
    "estimate": "Estimate",
    "actual": "Actual",
    "consumables": "of which consumables",
    "adjustments": "Adjustments",
    "before_tax": "Before tax",
    "tax": "Tax",
    "total": "Total",
}


def cost_statement(costs: Costs, setup: Setup, files: Sequence[CarFile], paper: str) -> Json:
    """Return the data of the cost statement of the cars' files. Errors: NotFound for a paper."""
    wording = Wording(setup)
    say = wording.say
    entries = sum(len(file.entries) for file in files)
    return {
        "template": "cost-statement",
        "paper": paper_named(paper),
        **spoken(say),
        "title": say("Cost statement"),
        "event": setup.event.name,
        "car": costs.car or ", ".join(file.car for file in files),
        "label": "",
        "made": made_of(entries, wording.moment(newest(files), year=True) if entries else "", say),
        "clock": setup.event.timezone,
        "notice": say(NOT_OURS),
        "checked": say(CHECKED),
        "currency": costs.currency,
        "rates": costs.rates[:12],
        "tax_percent": say.number(costs.tax_percent),
        "lines": [line_words(n, line, wording) for n, line in enumerate(costs.lines, 1)],
        "groups": [_group(name, costs, wording) for name in GROUPS if getattr(costs, f"by_{name}")],
        "drawing": _drawing(costs, wording),
        "adjustments": [_adjustment(one, wording) for one in costs.adjustments],
        "sums": [{"says": say(says), "amount": say.amount(getattr(costs.totals, name))} for name, says in SUMS.items()],
        "per_km": say.amount(costs.per_stage_km.actual) if costs.per_stage_km.actual else "",
        "stage_km": say.number(costs.stage_km),
        "shots": _shots(costs, files, wording),
    }


def newest(files: Sequence[CarFile]) -> datetime:
    """Return when the newest entry of several cars was written."""
    return max((file.newest for file in files), default=datetime(2000, 1, 1, tzinfo=UTC))


def line_words(n: int, line: CostLine, wording: Wording) -> Json:
    """Return a cost line as words and money texts; `n` numbers it."""
    zone = wording.zone(line.zone) if line.zone else ""
    step, say = sentence(wording.plain(line.step or "")), wording.say
    if line.job:
        zone_name, component = split_key(line.job)
        named = wording.is_how(component, line.condition) if line.condition else wording.component(component)
        what = wording.at(wording.zone(zone_name), named)
    else:
        what = wording.at(step, zone) if step and zone else step or zone
    service = say("service {service}", service=line.service) if line.service else ""
    place = ", ".join(filter(None, (line.stage or "", service)))
    return {
        "number": str(n),
        "car": line.car,
        "what": what,
        "action": wording.plain(line.action if line.kind != "access" else "access"),
        "place": place,
        "there_before": line.baseline,
        "estimate": say.amount(line.estimate.total),
        "labour": say.amount(line.actual.labour) if line.actual else "",
        "parts": say.amount(line.actual.parts_cost) if line.actual else "",
        "actual": say.amount(line.actual.total) if line.actual else "",
    }


def group_words(name: str, key: str | None, wording: Wording) -> str:
    """Return what a sum is of in words."""
    if key is None:
        return wording.say(NOWHERE.get(name, "none"))
    said = {"day": wording.day, "zone": wording.zone, "component": wording.component, "driver": wording.person}
    return said[name](key) if name in said else key


def _group(name: str, costs: Costs, wording: Wording) -> Json:
    rows = [
        {
            "of": group_words(name, getattr(row, name), wording),
            **{money: wording.say.amount(getattr(row, money)) for money in GROUP_MONEY},
        }
        for row in getattr(costs, f"by_{name}")
    ]
    title, column = BY[name]
    return {"title": wording.say(title), "column": wording.say(column), "rows": rows}


def _drawing(costs: Costs, wording: Wording) -> Json | None:
    """Return the car with what was spent by place, in quarters of the most; as estimated where nothing was yet."""
    spent = {row.zone: Decimal(row.actual) or Decimal(row.estimate) for row in costs.by_zone if row.zone}
    steps = steps_of(spent)
    return car_drawing(steps, wording.say("hatched: cost; denser is more"), wording) if steps else None


def _adjustment(one: Adjustment, wording: Wording) -> Json:
    counts = "" if one.counts else wording.say(" (does not count: not by a manager)")
    says = wording.at(one.line, f"{one.reason}, {wording.person(one.person)}{counts}")
    return {"car": one.car, "says": says, "amount": wording.say.amount(one.amount)}


def _shots(costs: Costs, files: Sequence[CarFile], wording: Wording) -> list[Json]:
    """Return the photos of the entries behind the lines."""
    behind = {name for line in costs.lines for name in line.entries}
    found: dict[str, Json] = {}
    for file in files:
        named = {p for e in file.entries if e.id in behind for p in getattr(e.data, "photos", [])}
        found |= {photo: one for photo, one in photo_index(file, wording).items() if photo in named}
    return list(found.values())
