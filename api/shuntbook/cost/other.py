"""What a customer is charged besides damage: drafted from the two walks by the price list, or entered by hand.

A line is named `other/CAR/CHARGE`. Who enters one by hand about that name takes its place.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from shuntbook.cost.decided import Decision
from shuntbook.cost.says import WHY, said_because
from shuntbook.kit.money import Currency, quantity
from shuntbook.kit.speech import Speech
from shuntbook.kit.times import instant
from shuntbook.queue.car import CarLog
from shuntbook.report.entry import Entry
from shuntbook.report.settling import ChargeAdded, HandoverSigned, OtherKind
from shuntbook.setup.agreements import Agreement, OtherCharge
from shuntbook.setup.event import Event
from shuntbook.setup.folder import Setup

BY_HAND = "other"
Walk = tuple[Entry, HandoverSigned]


@dataclass(frozen=True)
class Other:
    """One such line; price: of one unit, before tax; why: how it comes about, in words."""

    line: str
    kind: OtherKind
    says: str
    qty: Decimal
    unit: str
    price: Decimal
    amount: Decimal
    tax_percent: Decimal
    why: str
    entries: tuple[str, ...]
    photos: tuple[str, ...] = ()


@dataclass(frozen=True)
class Others:
    """What is charged, what is not with the reason, and questions that the two walks leave open."""

    charged: list[Other]
    not_charged: list[tuple[Other, str]]
    asks: list[str]


@dataclass(frozen=True)
class Drafted:
    """How many units a walk tells of, and how that comes about."""

    name: str
    qty: Decimal
    why: str


def others_of_car(
    car: str, log: CarLog, agreement: Agreement, setup: Setup, decided: Mapping[str, Decision], gone: Mapping[str, str]
) -> Others:
    """Return the lines of a car that are no damage. gone: lines that a statement withdrew, with the reason."""
    out, back = walk_of(log.entries, "out"), walk_of(log.entries, "return")
    known: dict[str, Other] = {}
    if out and back:
        for row in setup.event.other_charges:
            known |= {one.line: one for one in _drafted(car, row, out, back, agreement, setup)}
    for entry, data in _added(log.entries, setup.event):
        one = _by_hand(car, entry, data, agreement, setup.rates.currency)
        known[one.line] = one
    why = {name: _why_not(name, decided, gone, setup.speech) for name in known}
    return Others(
        charged=[one for name, one in sorted(known.items()) if not why[name]],
        not_charged=[(one, why[name]) for name, one in sorted(known.items()) if why[name]],
        asks=_asks(out, back, setup) if out and back else [],
    )


def walk_of(entries: Iterable[Entry], which: str) -> Walk | None:
    """Return the newest walk of its kind that no other replaces."""
    found = [(e, e.data) for e in entries if isinstance(e.data, HandoverSigned) and e.data.walk == which]
    # As with incidents, only an older one is taken over: of a ring something is left.
    replaced = {name for entry, data in found for name in data.replaces if name < entry.id}
    stand = [walk for walk in found if walk[0].id not in replaced]
    return max(stand, key=lambda walk: (instant(walk[0].at), walk[0].id), default=None)


def _why_not(name: str, decided: Mapping[str, Decision], gone: Mapping[str, str], say: Speech) -> str:
    if name in gone:
        return said_because(say(WHY["withdrawn"]), gone[name], say)
    decision = decided.get(name)
    if decision is None or decision.charge != "not-charged":
        return ""
    return said_because(say(WHY["decided"]), decision.reason, say)


def _drafted(car: str, row: OtherCharge, out: Walk, back: Walk, agreement: Agreement, setup: Setup) -> Iterable[Other]:
    rule = _RULES.get(row.kind)
    for one in rule(row, out, back, agreement, setup) if rule else ():
        yield Other(
            line=f"other/{car}/{one.name}",
            kind=row.kind,  # type: ignore[arg-type]  # the set-up takes no other words
            says=row.says,
            qty=one.qty,
            unit=row.unit,
            price=row.price,
            amount=setup.rates.currency.round(Fraction(one.qty) * Fraction(row.price)),
            tax_percent=agreement.tax_percent if row.tax_percent is None else row.tax_percent,
            why=one.why,
            entries=tuple(sorted((out[0].id, back[0].id))),
        )


def _fuel(row: OtherCharge, out: Walk, back: Walk, _: Agreement, setup: Setup) -> list[Drafted]:
    full, left, tank = out[1].fuel_percent, back[1].fuel_percent, row.per_tank
    if full is None or left is None or tank is None or left >= full:
        return []
    say = setup.speech
    holds = " ".join(filter(None, (say.number(quantity(tank)), row.unit)))
    said = "Tank of {tank}: {full} at the hand-over, {left} at the return"
    why = say(said, tank=holds, full=say.percent(full), left=say.percent(left))
    return [Drafted(row.charge, tank * (full - left) / 100, why)]


def _kit(row: OtherCharge, out: Walk, back: Walk, _: Agreement, setup: Setup) -> list[Drafted]:
    named = {one.item for one in setup.event.other_charges if one.kind == "kit" and one.item}
    missing = [item for item in missing_kit(out, back) if item == row.item or (not row.item and item not in named)]
    said, say = "{item}: aboard at the hand-over, not at the return", setup.speech
    names = {item: row.charge if row.item else f"{row.charge}/{item}" for item in missing}
    return [Drafted(name, Decimal(1), say(said, item=item)) for item, name in names.items()]


def missing_kit(out: Walk, back: Walk) -> list[str]:
    """Return what was aboard at the hand-over and is said not to be at the return."""
    had = {one.item for one in out[1].kit if one.aboard}
    return [one.item for one in back[1].kit if not one.aboard and one.item in had]


def _cleaning(row: OtherCharge, _: Walk, back: Walk, __: Agreement, setup: Setup) -> list[Drafted]:
    why = setup.speech("Recorded at the return walk")
    return [Drafted(row.charge, Decimal(1), why)] if back[1].needs_cleaning else []


def _lateness(row: OtherCharge, _: Walk, back: Walk, agreement: Agreement, setup: Setup) -> list[Drafted]:
    if agreement.hire_to is None or back[0].when <= agreement.hire_to:
        return []
    seconds = int((back[0].when - agreement.hire_to).total_seconds())
    begun = -(-seconds // (row.per_minutes * 60))
    said = "Back {late} min after the hire ended; each begun {unit} min counts"
    why = setup.speech(said, late=-(-seconds // 60), unit=row.per_minutes)
    return [Drafted(row.charge, Decimal(begun), why)]


_RULES: Mapping[str, Callable[[OtherCharge, Walk, Walk, Agreement, Setup], list[Drafted]]] = {
    "fuel": _fuel,
    "kit": _kit,
    "cleaning": _cleaning,
    "lateness": _lateness,
}
"""What the two walks tell, by the kind of charge."""


def _added(entries: Iterable[Entry], event: Event) -> list[tuple[Entry, ChargeAdded]]:
    """Return what managers entered that no other of theirs takes over, oldest first: the newest of a line counts."""
    mine = [(e, e.data) for e in entries if isinstance(e.data, ChargeAdded) and event.has_role(e.person, "manager")]
    gone = {old for entry, data in mine for old in data.replaces if old < entry.id}
    return sorted(((e, data) for e, data in mine if e.id not in gone), key=lambda one: one[0].id)


def _by_hand(car: str, entry: Entry, data: ChargeAdded, agreement: Agreement, coin: Currency) -> Other:
    price = Decimal(data.price)
    drafted = f"{BY_HAND}/{car}/"
    return Other(
        line=entry.subject if entry.subject and entry.subject.startswith(drafted) else f"{drafted}{entry.id}",
        kind=data.charge,
        says=data.says,
        qty=data.qty,
        unit=data.unit,
        price=price,
        amount=coin.round(Fraction(data.qty) * Fraction(price)),
        tax_percent=agreement.tax_percent if data.tax_percent is None else data.tax_percent,
        why=data.reason,
        entries=(entry.id,),
        photos=tuple(data.photos),
    )


def _asks(out: Walk, back: Walk, setup: Setup) -> list[str]:
    """Return what the walks say that cannot be, or that no price is for."""
    asks, say, rows = [], setup.speech, setup.event.other_charges
    went, came = out[1].odometer_km, back[1].odometer_km
    if went is not None and came is not None and came < went:
        said = (
            "The odometer read {went} km at the hand-over and {came} km at the return. Which is right? Sign the walk"
            " with the wrong one again."
        )
        asks.append(say(said, went=say.amount(str(quantity(went))), came=say.amount(str(quantity(came)))))
    kinds = {one.kind for one in rows}
    named = {one.item for one in rows if one.kind == "kit"}
    lost = [item for item in missing_kit(out, back) if item not in named and "" not in named]
    said = "{item} is not aboard any more, and there is no price for it. Add one in the set-up, or enter it by hand."
    asks += [say(said, item=item) for item in lost]
    if "cleaning" not in kinds and back[1].needs_cleaning:
        said = "The car needs cleaning, and there is no price for it. Add one in the set-up, or enter it by hand."
        asks.append(say(said))
    return asks
