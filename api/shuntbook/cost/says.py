"""The sentences of a statement, in words that a customer can follow."""

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from shuntbook.cost.charge import Charge, PartCharge, Terms
from shuntbook.cost.incidents import Incident
from shuntbook.cost.lines import Line
from shuntbook.kit.money import Currency, quantity
from shuntbook.kit.speech import Speech
from shuntbook.kit.times import minutes_says
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
    "twice": "its repair is charged for the same hit already",
    "decided": "decided by the team",
    "withdrawn": "withdrawn",
}
"""Why a line is not charged."""


def plain_money(amount: Decimal, coin: Currency, say: Speech) -> str:
    """Return an amount as a person writes it: 1,500.00."""
    return say.amount(coin.text(amount))


def key_says(key: str, condition: str, setup: Setup) -> str:
    """Return what is how, where: "Lower arm, front left (bent)"."""
    zone_name, component_name = split_key(key)
    car_map, say = setup.car_map, setup.speech
    component, zone = car_map.components.get(component_name), car_map.zones.get(zone_name)
    what = component.label if component else component_name.replace("-", " ")
    where = zone.label if zone else zone_name.replace("-", " ")
    return f"{_upper(what)}, {where.lower()} ({say(condition)})"


def line_says(line: Line, setup: Setup) -> str:
    """Return what was done to what: "Replace lower arm, front left (bent)"."""
    said, say = key_says(line.job, line.condition, setup), setup.speech
    if not line.action:
        return said
    action = _upper(say(line.action.replace("-", " ")))
    return say("{action} {part}", action=action, part=said[:1].lower() + said[1:])


def why_says(why: str, line: Line, terms: Terms, say: Speech) -> str:
    """Return why a line is not charged, with the reason that a manager gave."""
    decided = terms.decided(line)
    reason = terms.withdrawn.get(line.name) or (decided.reason if why in ("decided", "wear") else "")
    if why == "found-late":
        days = terms.agreement.later_findings_days
        return say("found later than the agreement allows ({days} days after the return)", days=days)
    return said_because(say(WHY[why]), reason, say)


def said_because(what: str, reason: str, say: Speech) -> str:
    """Return what is so, with the reason that somebody gave."""
    return say("{what}: {reason}", what=what, reason=reason) if reason else what


def title_of(incident: Incident, line: Line, setup: Setup) -> str:
    """Return what a hit is called: as somebody named it, else where it was."""
    if incident.title:
        return incident.title
    body = line.told.body if line.told else None
    say = setup.speech
    if body is None:
        return say("Not reported: {part}", part=key_says(line.job, line.condition, setup))
    zone = setup.car_map.zones.get(body.zone) if body.zone else None
    place = [body.stage, None if body.km is None else f"km {say.number(body.km)}"]
    return _upper(", ".join(filter(None, [*place, zone.label.lower() if zone else None])) or say("a hit"))


def parts_says(charges: Sequence[Charge], setup: Setup) -> str:
    """Return the sum of the parts: "Parts: lower arm 145.00 + tyre 180.00 less 40 % used = 108.00"."""
    said = [_part_says(part, setup) for charge in charges for part in charge.parts]
    say = setup.speech
    return say("Parts: {parts}", parts=" + ".join(said)) if said else say("Parts: none")


def labour_says(charges: Sequence[Charge], terms: Terms, say: Speech) -> str:
    """Return the hours and the rate; where each line is rounded on its own and that shows, it is said."""
    coin = terms.rates.currency
    if terms.per_hour == 0:
        return say("Labour: none is charged by the agreement")
    hours = sum((charge.mechanic_minutes for charge in charges), Fraction(0)) / 60
    price = plain_money(terms.per_hour, coin, say)
    said = say("Labour: {time} at {price} an hour", time=_work(hours, say), price=price)
    once = coin.round(hours * Fraction(terms.per_hour))
    return said if once == sum(charge.labour for charge in charges) else f"{said}{say(', each line rounded')}"


def misuse_says(charges: Sequence[Charge], terms: Terms, setup: Setup) -> str:
    """Return what misuse is charged for: its lines, parts and labour."""
    lines = ", ".join(line_says(charge.line, setup) for charge in charges)
    return f"{lines}. {parts_says(charges, setup)}. {labour_says(charges, terms, setup.speech)}"


def excess_says(amount: Decimal, excess: Decimal, per: str, coin: Currency, say: Speech) -> str:
    """Return what the excess does to a sum."""
    limit = plain_money(excess, coin, say)
    if amount < excess:
        return say(UNDER[per], limit=limit)
    if amount == excess:
        return say(JUST[per], limit=limit)
    return say(OVER[per], limit=limit, rest=plain_money(amount - excess, coin, say))


UNDER = {
    "incident": "Under your excess of {limit} per incident, so payable in full",
    "event": "Under your excess of {limit} for the event, so payable in full",
}
JUST = {
    "incident": "Exactly your excess of {limit} per incident, so payable in full",
    "event": "Exactly your excess of {limit} for the event, so payable in full",
}
OVER = {
    "incident": "Above your excess of {limit} per incident: you pay the excess; {rest} is not charged to you",
    "event": "Above your excess of {limit} for the event: you pay the excess; {rest} is not charged to you",
}


def percent(number: Decimal, say: Speech) -> str:
    """Return a percentage without needless zeros."""
    return say.percent(number)


def _work(hours: Fraction, say: Speech) -> str:
    """Return working time as a person says it: hours with at most two decimals, else minutes and seconds."""
    return f"{say.number(quantity(hours))} h" if (hours * 100).denominator == 1 else minutes_says(hours * 60)


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _part_says(part: PartCharge, setup: Setup) -> str:
    coin, say = setup.rates.currency, setup.speech
    known = setup.rates.parts.get(part.cost.part)
    name = (known.description if known else part.cost.part).lower()
    if part.cost.unit_cost is None:
        return say("{part} (no price in the table) 0", part=name)
    times = "" if part.cost.qty == 1 else f"{say.number(quantity(part.cost.qty))} × "
    said = f"{name} {times}{plain_money(part.cost.unit_cost, coin, say)}"
    if part.included:
        said += say(" less {count} included", count=say.number(quantity(part.included)))
    if part.used_percent:
        said += say(" less {percent} used", percent=percent(part.used_percent, say))
    plain = times == "" and not part.included and not part.used_percent
    return said if plain else f"{said} = {plain_money(part.charged, coin, say)}"
