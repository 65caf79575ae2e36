"""Statements as they stand in JSON: the draft with what is behind each line, and those that were issued."""

from collections.abc import Mapping
from decimal import Decimal

import msgspec

from shuntbook.cost.charge import Charge, PartCharge
from shuntbook.cost.decided import Issued, issued
from shuntbook.cost.lines import Line
from shuntbook.cost.says import WHY, key_says, line_says, why_says
from shuntbook.cost.sheet import costs_of_car
from shuntbook.cost.statement import Hit, Statement, draft
from shuntbook.cost.told import CarTold, told_of_car
from shuntbook.kit.money import quantity, two_decimals
from shuntbook.queue.car import CarLog
from shuntbook.queue.release import Json
from shuntbook.report.settling import PartRetained
from shuntbook.setup.folder import Setup


def statements_of_car(car: str, log: CarLog, setup: Setup) -> Json:
    """Return the draft of a car's statement (null without an agreement) and all that were issued, by number."""
    agreement = setup.event.agreement_of(car)
    costs = costs_of_car(car, log, setup)
    made = draft(log, costs, agreement, setup) if agreement else None
    before = issued(log.entries, setup.event)
    return {
        "event": setup.event.event,
        "car": car,
        "draft": _Drafted(car, log, setup).json(made) if made else None,
        "issued": [_issued_json(car, setup.event.event, one) for one in before],
    }


class _Drafted:
    """A draft with the log behind it: entries, photos before and after, tags of the parts that were kept."""

    def __init__(self, car: str, log: CarLog, setup: Setup) -> None:
        self.car, self.setup = car, setup
        self.told: CarTold = told_of_car(log, setup.car_map)
        self.tags = {
            e.subject: e.data
            for e in sorted(log.entries, key=lambda entry: entry.id)
            if isinstance(e.data, PartRetained)
        }

    def json(self, made: Statement) -> Json:
        """Return the draft."""
        coin = self.setup.rates.currency
        return {
            "event": self.setup.event.event,
            "car": self.car,
            "agreement": made.agreement.agreement,
            "customer": made.agreement.customer,
            "currency": coin.code,
            "rates": self.setup.rates.version,
            "number": made.number,
            "supplements": made.supplements,
            "entry": None,
            "issued_at": None,
            "by": None,
            "incidents": [self._hit(hit) for hit in made.hits],
            "not_charged": [*self._marks(made), *(self._not_charged(*pair, made) for pair in made.not_charged)],
            "steps": msgspec.to_builtins(made.steps),
            "totals": {name: coin.text(amount) for name, amount in made.totals.items()},
        }

    def _not_charged(self, line: Line, why: str, made: Statement) -> Json:
        return {
            "line": line.name,
            "job": line.job or None,
            "says": line_says(line, self.setup.car_map),
            "why": why_says(why, line, made.terms),
            "entries": list(line.entries),
            "photos": _photos(line),
        }

    def _marks(self, made: Statement) -> list[Json]:
        """Return the marks of the hand-over that no line is about: the customer sees that they are known."""
        named = {line.job for line, _ in made.not_charged}
        return [
            {
                "line": f"hand-over/{self.car}/{mark.key}",
                "job": mark.key,
                "says": key_says(mark.key, mark.condition, self.setup.car_map),
                "why": WHY["hand-over"],
                "entries": list(mark.entries),
                "photos": list(mark.photos),
            }
            for key, mark in sorted(self.told.marks.items())
            if key not in named
        ]

    def _hit(self, hit: Hit) -> Json:
        first = hit.charges[0].line.told
        body = first.body if first else None
        reports = [self.told.reports[report] for report in hit.incident.reports]
        grouping = hit.incident.grouping
        return {
            "incident": hit.incident.incident,
            "title": hit.title,
            "stage": body.stage if body else None,
            "km": quantity(body.km) if body and body.km is not None else None,
            "driver": first.driver if first else None,
            "reported_at_the_time": any(told.body.where not in ("workshop", "hand-over") for told in reports),
            "others_involved": bool(grouping and grouping.others_involved),
            "reports": list(hit.incident.reports),
            "lines": [self._line(charge) for charge in hit.charges],
            "steps": msgspec.to_builtins(hit.steps),
            "to_pay": self.setup.rates.currency.text(hit.to_pay),
        }

    def _line(self, charge: Charge) -> Json:
        line, coin = charge.line, self.setup.rates.currency
        tag = self.tags.get(line.job)
        return {
            "line": line.name,
            "job": line.job or None,
            "says": line_says(line, self.setup.car_map),
            "action": line.action,
            "condition": line.condition,
            "service": line.service,
            "repaired": line.actual is not None,
            "mechanic_minutes": two_decimals(charge.mechanic_minutes),
            "labour": coin.text(charge.labour),
            "parts": [self._part(part) for part in charge.parts],
            "parts_cost": coin.text(charge.parts_cost),
            "consumables": coin.text(charge.consumables),
            "amount": coin.text(charge.amount),
            "entries": list(line.entries),
            "photos": _photos(line),
            "photos_before": self._before(line),
            "standing": None,
            "tag": {"tag": tag.tag, "shelf": tag.shelf} if tag else None,
        }

    def _part(self, part: PartCharge) -> Json:
        coin = self.setup.rates.currency
        known = self.setup.rates.parts.get(part.cost.part)
        return {
            "part": part.cost.part,
            "description": known.description if known else "",
            "qty": quantity(part.cost.qty),
            "unit_cost": None if part.cost.unit_cost is None else coin.text(part.cost.unit_cost),
            "used_percent": quantity(part.used_percent),
            "included": quantity(part.included),
            "charged": coin.text(part.charged),
        }

    def _before(self, line: Line) -> list[str]:
        """Return the photos of the marks in the line's zone at the hand-over."""
        marks = [told.body for told in self.told.reports.values() if told.body.where == "hand-over"]
        return sorted({photo for body in marks if body.zone == line.zone for photo in body.photos})


def _issued_json(car: str, event: str, one: Issued) -> Json:
    content: Json = msgspec.to_builtins(one.data.content, builtin_types=(Decimal,))
    for incident in content["incidents"]:
        for line in incident["lines"]:
            line.update(entries=[], photos=[], photos_before=[], tag=None, standing=one.standing.get(line["line"]))
    for line in content["not_charged"]:
        line.update(entries=[], photos=[])
    return {
        "event": event,
        "car": car,
        "agreement": one.data.agreement,
        **_numbers(content),
        "number": one.data.number,
        "supplements": one.data.supplements,
        "entry": one.entry.id,
        "issued_at": one.entry.at,
        "by": one.entry.person,
    }


def _numbers(value: Json) -> Json:
    """Return a copy with quantities as numbers, as they stand in the draft."""

    def plain(item: object) -> object:
        if isinstance(item, Decimal):
            return quantity(item)
        if isinstance(item, Mapping):
            return {name: plain(inner) for name, inner in item.items()}
        return [plain(inner) for inner in item] if isinstance(item, list) else item

    return {name: plain(item) for name, item in value.items()}


def _photos(line: Line) -> list[str]:
    return sorted({photo for finding in line.findings for photo in finding.photos})
