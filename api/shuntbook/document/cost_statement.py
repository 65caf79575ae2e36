"""The cost statement of an event: every line, the sums by what they are of, the adjustments, tax and total."""

from collections.abc import Sequence
from datetime import UTC, datetime

from shuntbook.cost.adjusted import Adjustment
from shuntbook.cost.answer import CostLine, Costs
from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import paper_named
from shuntbook.document.heading import CHECKED, NOT_OURS, made_of
from shuntbook.document.photo_index import photo_index
from shuntbook.document.wording import Wording, condition, number, plain
from shuntbook.setup.folder import Setup

GROUPS = ("car", "day", "stage", "zone", "component", "driver")
"""What a cost sheet is summed by: `by_car` and so on."""
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
    entries = sum(len(file.entries) for file in files)
    return {
        "template": "cost-statement",
        "paper": paper_named(paper),
        "title": "Cost statement",
        "event": setup.event.name,
        "car": costs.car or ", ".join(file.car for file in files),
        "label": "",
        "made": made_of(entries, wording.moment(newest(files), year=True) if entries else ""),
        "clock": setup.event.timezone,
        "notice": NOT_OURS,
        "checked": CHECKED,
        "currency": costs.currency,
        "rates": costs.rates[:12],
        "tax_percent": str(costs.tax_percent),
        "lines": [line_words(n, line, wording) for n, line in enumerate(costs.lines, 1)],
        "groups": [_group(name, costs, wording) for name in GROUPS if getattr(costs, f"by_{name}")],
        "adjustments": [_adjustment(one, wording) for one in costs.adjustments],
        "sums": [{"says": says, "amount": getattr(costs.totals, name)} for name, says in SUMS.items()],
        "per_km": costs.per_stage_km.actual or "",
        "stage_km": number(costs.stage_km),
        "shots": _shots(costs, files, wording),
    }


def newest(files: Sequence[CarFile]) -> datetime:
    """Return when the newest entry of several cars was written."""
    return max((file.newest for file in files), default=datetime(2000, 1, 1, tzinfo=UTC))


def line_words(n: int, line: CostLine, wording: Wording) -> Json:
    """Return a cost line as words and money texts; `n` numbers it."""
    zone = wording.zone(line.zone) if line.zone else ""
    what = wording.job(line.job) if line.job else ": ".join(filter(None, (plain(line.step or ""), zone)))
    seen = f" {condition(line.condition)}" if line.condition else ""
    place = ", ".join(filter(None, (line.stage or "", f"service {line.service}" if line.service else "")))
    return {
        "number": str(n),
        "car": line.car,
        "what": f"{what}{seen}",
        "action": plain(line.action) if line.kind != "access" else "access",
        "place": place,
        "there_before": line.baseline,
        "estimate": line.estimate.total,
        "labour": line.actual.labour if line.actual else "",
        "parts": line.actual.parts_cost if line.actual else "",
        "actual": line.actual.total if line.actual else "",
    }


def group_words(name: str, key: str | None, wording: Wording) -> str:
    """Return what a sum is of in words."""
    if key is None:
        return NOWHERE.get(name, "none")
    said = {"zone": wording.zone, "component": wording.component, "driver": wording.person}
    return said[name](key) if name in said else key


def _group(name: str, costs: Costs, wording: Wording) -> Json:
    rows = [
        {"of": group_words(name, getattr(row, name), wording), **{money: getattr(row, money) for money in GROUP_MONEY}}
        for row in getattr(costs, f"by_{name}")
    ]
    column = "place on the car" if name == "zone" else name
    return {"title": f"By {column}", "column": column.capitalize(), "rows": rows}


def _adjustment(one: Adjustment, wording: Wording) -> Json:
    counts = "" if one.counts else " (does not count: not by a manager)"
    says = f"{one.line}: {one.reason}, {wording.person(one.person)}{counts}"
    return {"car": one.car, "says": says, "amount": one.amount}


def _shots(costs: Costs, files: Sequence[CarFile], wording: Wording) -> list[Json]:
    """Return the photos of the entries behind the lines."""
    behind = {name for line in costs.lines for name in line.entries}
    found: dict[str, Json] = {}
    for file in files:
        named = {p for e in file.entries if e.id in behind for p in getattr(e.data, "photos", [])}
        found |= {photo: one for photo, one in photo_index(file, wording).items() if photo in named}
    return list(found.values())
