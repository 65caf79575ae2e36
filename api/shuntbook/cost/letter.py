"""What makes a statement a letter: who writes to whom, about which hire, and the terms that applied, in sentences."""

from collections.abc import Iterator
from decimal import Decimal

from shuntbook.cost.charge import Charge
from shuntbook.cost.other import Walk, walk_of
from shuntbook.cost.says import percent, plain_money
from shuntbook.kit.money import quantity
from shuntbook.kit.speech import ENGLISH
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
AT_MOST = {
    "incident": "You pay at most {amount} for one incident, before tax",
    "event": "You pay at most {amount} for the event, before tax",
}
CAUSES = {"car": "another car", "roll": "rolled over", "recovery": "the recovery", UNKNOWN: ""}


def clause_of(of: str, agreement: Agreement, setup: Setup) -> str:
    """Return " (clause 4.2)" where the set-up says which clause is about it, else nothing."""
    found = [one.clause for one in setup.event.clauses if (one.agreement, one.of) == (agreement.agreement, of)]
    return setup.speech(" (clause {numbers})", numbers=", ".join(found)) if found else ""


def charge_says(charge: Charge, setup: Setup) -> str:
    """Return what a line came from, who reported it when, and its clause: "Stone, reported Sat 13 Jun by Jule"."""
    told, agreement = charge.line.told, setup.event.agreement_of(charge.line.car)
    clause = clause_of("misuse" if charge.misuse else "damage", agreement, setup) if agreement else ""
    say = setup.speech
    if told is None:
        return say("Not reported") + clause
    cause = say(CAUSES.get(told.body.cause, told.body.cause))
    pattern = "found {when} by {who}" if told.body.where == "workshop" else "reported {when} by {who}"
    said = say(pattern, when=say.moment(told.when, setup.event.timezone), who=person_says(told.person, setup))
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
        language="" if setup.language == ENGLISH else setup.language,
    )


def _hire(car: str, log: CarLog, agreement: Agreement, setup: Setup) -> Iterator[str]:
    event, say = setup.event, setup.speech
    yield ", ".join(filter(None, (say("Car {car}", car=car), event.car_labels.get(car, ""), event.name)))
    dates = (agreement.hire_from, agreement.hire_to)
    begins, ends = (say.moment(time, event.timezone, year=True) if time else "" for time in dates)
    if begins or ends:
        said = "Hired {begins} to {ends}" if begins and ends else "Hired from {begins}" if begins else "Hired to {ends}"
        yield say(said, begins=begins, ends=ends)
    out, back = walk_of(log.entries, "out"), walk_of(log.entries, "return")
    yield from (_walked(walk, words, setup) for walk, words in ((out, "Handed over"), (back, "Back")) if walk)
    if agreement.drivers:
        yield say("May drive: {names}", names=", ".join(person_says(one, setup) for one in agreement.drivers))
    signed = say(" of {day}", day=say.day(agreement.signed_on)) if agreement.signed_on else ""
    yield say("Agreement {name}", name=agreement.agreement) + signed


def _walked(walk: Walk, words: str, setup: Setup) -> str:
    (entry, data), say = walk, setup.speech
    km = "" if data.odometer_km is None else f", {say.amount(str(quantity(data.odometer_km)))} km"
    return f"{say(words)} {say.moment(entry.when, setup.event.timezone, year=True)}{km}"


def _terms(agreement: Agreement, setup: Setup) -> Iterator[str]:
    for of, said in _sentences(agreement, setup):
        clause = clause_of(of, agreement, setup)
        yield f"{said}{clause}."
    if agreement.text:
        yield agreement.text


def _sentences(agreement: Agreement, setup: Setup) -> Iterator[tuple[str, str]]:
    """Yield what each term says, with what its clause is about."""
    say = setup.speech
    yield from _limits(agreement, setup)
    yield "wear", say("Wear is charged" if agreement.wear == "charged" else "Wear is not charged")
    if agreement.never_charged:
        labels = sorted(_component(one, setup) for one in agreement.never_charged)
        yield "excluded", say("Never charged: {parts}", parts=", ".join(labels))
    yield from _rates(agreement, setup)
    if agreement.recovery == "included":
        yield "recovery", say("Damage by the recovery is included")
    if agreement.drivers:
        yield "driver", say("What broke while somebody else drove is not charged")
    if agreement.later_findings_days is not None:
        days = agreement.later_findings_days
        yield "later", say("What is found later than {days} days after the return is not charged", days=days)


def _limits(agreement: Agreement, setup: Setup) -> Iterator[tuple[str, str]]:
    coin, say = setup.rates.currency, setup.speech
    if agreement.share_percent != 100:
        share = percent(agreement.share_percent, say)
        yield "share", say("You bear {share} of the damage of each incident", share=share)
    if agreement.excess is not None:
        yield "excess", say(AT_MOST[agreement.excess_per], amount=plain_money(agreement.excess, coin, say))
    if agreement.cap is not None:
        yield (
            "cap",
            say("You pay at most {amount} for all damage, before tax", amount=plain_money(agreement.cap, coin, say)),
        )
    if (agreement.excess, agreement.cap, agreement.share_percent) != (None, None, Decimal(100)):
        yield "misuse", say("Misuse is paid in full")


def _rates(agreement: Agreement, setup: Setup) -> Iterator[tuple[str, str]]:
    say, coin = setup.speech, setup.rates.currency
    if agreement.included:
        parts = setup.rates.parts
        named = [
            f"{say.number(quantity(qty))} × {parts[part].description if part in parts else part}"
            for part, qty in agreement.included.items()
        ]
        yield "included", say("In the price: {parts}", parts=", ".join(named))
    worn = "Parts are charged less what was used of their life" if agreement.part_worn else "Parts are charged as new"
    per_hour = agreement.labour_per_hour
    labour = "" if per_hour is None else say(", labour at {price} an hour", price=plain_money(per_hour, coin, say))
    yield "damage", f"{say(worn)}{say(', no labour') if per_hour == 0 else labour}"


def _component(name: str, setup: Setup) -> str:
    known = setup.car_map.components.get(name)
    return (known.label if known else name.replace("-", " ")).lower()
