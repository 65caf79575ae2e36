"""What makes a statement a letter: who writes to whom, about which hire, and the terms that applied, in sentences."""

from collections.abc import Iterator
from decimal import Decimal

from shuntbook.cost.charge import Charge
from shuntbook.cost.other import Walk, walk_of
from shuntbook.cost.says import percent, plain_money
from shuntbook.kit.money import quantity
from shuntbook.kit.times import day_says, moment_in
from shuntbook.queue.car import CarLog
from shuntbook.report.settling import Letter
from shuntbook.setup.agreements import Agreement
from shuntbook.setup.folder import Setup
from shuntbook.setup.words import UNKNOWN

CLAUSES = {
    "excluded": "excluded",
    "wear": "wear",
    "hand-over": "hand-over",
    "recovery": "recovery",
    "other-driver": "driver",
    "found-alone": "later",
    "found-late": "later",
}
"""What an agreement's clause is about, by why a line is not charged."""
CAUSES = {"car": "another car", "roll": "rolled over", "recovery": "the recovery", UNKNOWN: ""}


def clause_of(of: str, agreement: Agreement, setup: Setup) -> str:
    """Return " (clause 4.2)" where the set-up says which clause is about it, else nothing."""
    found = [one.clause for one in setup.event.clauses if (one.agreement, one.of) == (agreement.agreement, of)]
    return f" (clause {', '.join(found)})" if found else ""


def charge_says(charge: Charge, setup: Setup) -> str:
    """Return what a line came from, who reported it when, and its clause: "Stone, reported Sat 13 Jun by Jule"."""
    told, agreement = charge.line.told, setup.event.agreement_of(charge.line.car)
    clause = clause_of("misuse" if charge.misuse else "damage", agreement, setup) if agreement else ""
    if told is None:
        return f"Not reported{clause}"
    cause = CAUSES.get(told.body.cause, told.body.cause)
    reported = "found" if told.body.where == "workshop" else "reported"
    said = f"{reported} {moment_in(told.when, setup.event.timezone)} by {person_says(told.person, setup)}"
    words = f"{cause}, {said}" if cause else said
    return f"{words[:1].upper()}{words[1:]}{clause}"


def person_says(person: str, setup: Setup) -> str:
    """Return a person's name."""
    return next((one.name for one in setup.event.people if one.person == person), person)


def letter_of(car: str, log: CarLog, agreement: Agreement, setup: Setup) -> Letter:
    """Return the letter of a car's statement as of now."""
    sender = setup.event.sender
    return Letter(
        sender=sender.name,
        sender_address=sender.address,
        contact=sender.contact,
        tax_number=sender.tax_number,
        customer_address=agreement.address,
        hire=list(_hire(car, log, agreement, setup)),
        terms=list(_terms(agreement, setup)),
        bank=sender.bank,
        object_to=sender.object_to or sender.contact,
        due_days=sender.due_days,
        object_days=sender.object_days,
    )


def _hire(car: str, log: CarLog, agreement: Agreement, setup: Setup) -> Iterator[str]:
    event = setup.event
    yield ", ".join(filter(None, (f"Car {car}", event.car_labels.get(car, ""), event.name)))
    dates = (agreement.hire_from, agreement.hire_to)
    said = [moment_in(time, event.timezone, year=True) for time in dates if time]
    if said:
        yield f"Hired {' to '.join(said)}" if len(said) == 2 else f"Hired {'from' if dates[0] else 'to'} {said[0]}"
    out, back = walk_of(log.entries, "out"), walk_of(log.entries, "return")
    yield from (_walked(walk, words, setup) for walk, words in ((out, "Handed over"), (back, "Back")) if walk)
    if agreement.drivers:
        yield f"May drive: {', '.join(person_says(one, setup) for one in agreement.drivers)}"
    signed = f" of {day_says(agreement.signed_on)}" if agreement.signed_on else ""
    yield f"Agreement {agreement.agreement}{signed}"


def _walked(walk: Walk, words: str, setup: Setup) -> str:
    entry, data = walk
    km = "" if data.odometer_km is None else f", {quantity(data.odometer_km):,} km"
    return f"{words} {moment_in(entry.when, setup.event.timezone, year=True)}{km}"


def _terms(agreement: Agreement, setup: Setup) -> Iterator[str]:
    for of, said in _sentences(agreement, setup):
        clause = clause_of(of, agreement, setup)
        yield f"{said}{clause}."
    if agreement.text:
        yield agreement.text


def _sentences(agreement: Agreement, setup: Setup) -> Iterator[tuple[str, str]]:
    """Yield what each term says, with what its clause is about."""
    yield from _limits(agreement, setup)
    yield "wear", "Wear is charged" if agreement.wear == "charged" else "Wear is not charged"
    if agreement.never_charged:
        labels = sorted(_component(one, setup) for one in agreement.never_charged)
        yield "excluded", f"Never charged: {', '.join(labels)}"
    yield from _rates(agreement, setup)
    if agreement.recovery == "included":
        yield "recovery", "Damage by the recovery is included"
    if agreement.drivers:
        yield "driver", "What broke while somebody else drove is not charged"
    if agreement.later_findings_days is not None:
        yield "later", f"What is found later than {agreement.later_findings_days} days after the return is not charged"


def _limits(agreement: Agreement, setup: Setup) -> Iterator[tuple[str, str]]:
    coin = setup.rates.currency
    if agreement.share_percent != 100:
        yield "share", f"You bear {percent(agreement.share_percent)} of the damage of each incident"
    if agreement.excess is not None:
        per = "for one incident" if agreement.excess_per == "incident" else "for the event"
        yield "excess", f"You pay at most {plain_money(agreement.excess, coin)} {per}, before tax"
    if agreement.cap is not None:
        yield "cap", f"You pay at most {plain_money(agreement.cap, coin)} for all damage, before tax"
    if (agreement.excess, agreement.cap, agreement.share_percent) != (None, None, Decimal(100)):
        yield "misuse", "Misuse is paid in full"


def _rates(agreement: Agreement, setup: Setup) -> Iterator[tuple[str, str]]:
    if agreement.included:
        parts = setup.rates.parts
        named = [
            f"{quantity(qty)} × {parts[part].description if part in parts else part}"
            for part, qty in agreement.included.items()
        ]
        yield "included", f"In the price: {', '.join(named)}"
    worn = "less what was used of their life" if agreement.part_worn else "as new"
    per_hour = agreement.labour_per_hour
    labour = "" if per_hour is None else f", labour at {plain_money(per_hour, setup.rates.currency)} an hour"
    yield "damage", f"Parts are charged {worn}{', no labour' if per_hour == 0 else labour}"


def _component(name: str, setup: Setup) -> str:
    known = setup.car_map.components.get(name)
    return (known.label if known else name.replace("-", " ")).lower()
