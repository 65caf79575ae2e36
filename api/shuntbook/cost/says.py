"""The sentences of a statement, in words that a customer can follow."""

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from shuntbook.cost.charge import Charge, PartCharge, Terms
from shuntbook.cost.incidents import Incident
from shuntbook.cost.lines import Line
from shuntbook.kit.money import Currency, quantity
from shuntbook.kit.times import minutes_says
from shuntbook.setup.car_map import CarMap
from shuntbook.setup.folder import Setup
from shuntbook.setup.words import split_key

WHY = {
    "hand-over": "it was there when the car was handed over",
    "no-report": "no report of a hit is behind it",
    "look": "inspection only",
    "excluded": "never charged, by the agreement",
    "wear": "wear",
    "recovery": "damage by the recovery, which the agreement includes",
    "other-driver": "somebody else drove",
    "found-alone": "found in the workshop, and linked to no hit",
    "found-late": "found later than the agreement allows",
    "decided": "decided by the team",
    "withdrawn": "withdrawn",
}
"""Why a line is not charged."""


def plain_money(amount: Decimal, coin: Currency) -> str:
    """Return an amount as a person writes it: 1,500.00."""
    return f"{coin.round(amount):,.{coin.decimals}f}"


def key_says(key: str, condition: str, car_map: CarMap) -> str:
    """Return what is how, where: "Lower arm, front left (bent)"."""
    zone_name, component_name = split_key(key)
    component, zone = car_map.components.get(component_name), car_map.zones.get(zone_name)
    what = component.label if component else component_name.replace("-", " ")
    where = zone.label if zone else zone_name.replace("-", " ")
    return f"{_upper(what)}, {where.lower()} ({condition})"


def line_says(line: Line, car_map: CarMap) -> str:
    """Return what was done to what: "Replace lower arm, front left (bent)"."""
    said = key_says(line.job, line.condition, car_map)
    return f"{_upper(line.action.replace('-', ' '))} {said[:1].lower()}{said[1:]}" if line.action else said


def why_says(why: str, line: Line, terms: Terms) -> str:
    """Return why a line is not charged, with the reason that a manager gave."""
    decided = terms.decided(line)
    reason = terms.withdrawn.get(line.name) or (decided.reason if why in ("decided", "wear") else "")
    if why == "found-late":
        return f"{WHY[why]} ({terms.agreement.later_findings_days} days after the return)"
    return f"{WHY[why]}: {reason}" if reason else WHY[why]


def title_of(incident: Incident, line: Line, car_map: CarMap) -> str:
    """Return what a hit is called: as somebody named it, else where it was."""
    if incident.title:
        return incident.title
    body = line.told.body if line.told else None
    zone = car_map.zones.get(body.zone) if body and body.zone else None
    place = [body.stage if body else None, f"km {body.km}" if body and body.km is not None else None]
    if body is None:
        return f"Not reported: {key_says(line.job, line.condition, car_map)}"
    return _upper(", ".join(filter(None, [*place, zone.label.lower() if zone else None])) or "a hit")


def parts_says(charges: Sequence[Charge], setup: Setup) -> str:
    """Return the sum of the parts: "Parts: lower arm 145.00 + tyre 180.00 less 40 % used = 108.00"."""
    said = [_part_says(part, setup) for charge in charges for part in charge.parts]
    return f"Parts: {' + '.join(said)}" if said else "Parts: none"


def labour_says(charges: Sequence[Charge], terms: Terms) -> str:
    """Return the hours and the rate; where each line is rounded on its own and that shows, it is said."""
    coin = terms.rates.currency
    if terms.per_hour == 0:
        return "Labour: none is charged by the agreement"
    hours = sum((charge.mechanic_minutes for charge in charges), Fraction(0)) / 60
    said = f"Labour: {_work(hours)} at {plain_money(terms.per_hour, coin)} an hour"
    once = coin.round(hours * Fraction(terms.per_hour))
    return said if once == sum(charge.labour for charge in charges) else f"{said}, each line rounded"


def misuse_says(charges: Sequence[Charge], terms: Terms, setup: Setup) -> str:
    """Return what misuse is charged for: its lines, parts and labour."""
    lines = ", ".join(line_says(charge.line, setup.car_map) for charge in charges)
    return f"{lines}. {parts_says(charges, setup)}. {labour_says(charges, terms)}"


def excess_says(amount: Decimal, excess: Decimal, per: str, coin: Currency) -> str:
    """Return what the excess does to a sum."""
    limit = f"the excess of {plain_money(excess, coin)} per {per}"
    if amount <= excess:
        return f"Below {limit}: you pay all of it" if amount < excess else f"Just {limit}: you pay all of it"
    return f"Above {limit}: you pay the excess; {plain_money(amount - excess, coin)} is not charged to you"


def percent(number: Decimal) -> str:
    """Return a percentage without needless zeros."""
    return f"{quantity(number)} %"


def _work(hours: Fraction) -> str:
    """Return working time as a person says it: hours with at most two decimals, else minutes and seconds."""
    return f"{quantity(hours)} h" if (hours * 100).denominator == 1 else minutes_says(hours * 60)


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _part_says(part: PartCharge, setup: Setup) -> str:
    coin = setup.rates.currency
    known = setup.rates.parts.get(part.cost.part)
    name = (known.description if known else part.cost.part).lower()
    if part.cost.unit_cost is None:
        return f"{name} (no price in the table) 0"
    times = "" if part.cost.qty == 1 else f"{quantity(part.cost.qty)} × "
    said = f"{name} {times}{plain_money(part.cost.unit_cost, coin)}"
    if part.included:
        said += f" less {quantity(part.included)} included"
    if part.used_percent:
        said += f" less {percent(part.used_percent)} used"
    plain = times == "" and not part.included and not part.used_percent
    return said if plain else f"{said} = {plain_money(part.charged, coin)}"
