"""Who pays for what: the terms that were agreed for a car and an event, from `[[agreements]]` of event.toml."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from shuntbook.kit.money import Currency
from shuntbook.setup.toml_file import Reader

PER = ("incident", "event")
RECOVERY = ("charged", "included")
MONEY = ("excess", "cap", "labour_per_hour", "deposit")


@dataclass(frozen=True)
class Agreement:
    """The terms for one car; money before tax and in the rate table's currency.

    excess: what the customer bears of the damage of one incident, or of the whole event, at most; None = all of it.
    cap: what he pays at most in all. share_percent: his part of the damage, before excess and cap.
    wear_excluded: components whose wear is not charged. included: how many of a part are in the hire price.
    labour_per_hour: None = the rate table's, 0 = none is charged. consumables_percent: None = the rate table's.
    later_findings_days: how long after the return damage may still be found; None = without limit.
    """

    agreement: str
    car: str
    customer: str
    drivers: tuple[str, ...] = ()
    excess: Decimal | None = None
    excess_per: str = "incident"
    cap: Decimal | None = None
    share_percent: Decimal = Decimal(100)
    wear_excluded: tuple[str, ...] = ()
    included: Mapping[str, Decimal] = field(default_factory=dict)
    part_worn: bool = True
    labour_per_hour: Decimal | None = None
    consumables_percent: Decimal | None = None
    recovery: str = "charged"
    deposit: Decimal = Decimal(0)
    tax_percent: Decimal = Decimal(0)
    later_findings_days: int | None = None
    text: str = ""


def read_agreement(reader: Reader, cars: tuple[str, ...]) -> Agreement:
    """Read one `[[agreements]]` table; `cars` are the event's. Faults name line and key."""
    car = reader.text("car")
    if car and car not in cars:
        reader.fault("car", f"{car!r} is not a car of this event; its cars are {', '.join(cars)}")
    return Agreement(
        agreement=reader.text("agreement"),
        car=car,
        customer=reader.text("customer"),
        drivers=reader.texts("drivers"),
        excess=_maybe(reader, "excess"),
        excess_per=_word(reader, "excess_per", PER),
        cap=_maybe(reader, "cap"),
        share_percent=_percent(reader, "share_percent", 100),
        wear_excluded=reader.texts("wear_excluded"),
        included=_included(reader),
        part_worn=reader.flag("part_worn", True),
        labour_per_hour=_maybe(reader, "labour_per_hour"),
        consumables_percent=_percent(reader, "consumables_percent") if "consumables_percent" in reader.table else None,
        recovery=_word(reader, "recovery", RECOVERY),
        deposit=reader.number("deposit", 0),
        tax_percent=_percent(reader, "tax_percent", 0),
        later_findings_days=reader.whole("later_findings_days") if "later_findings_days" in reader.table else None,
        text=reader.text("text", ""),
    )


def too_fine(agreement: Agreement, coin: Currency) -> list[str]:
    """Return the money terms that have more decimals than the currency."""
    amounts = {name: getattr(agreement, name) for name in MONEY}
    return [name for name, amount in amounts.items() if amount is not None and not coin.fits(amount)]


def _maybe(reader: Reader, key: str) -> Decimal | None:
    return reader.number(key) if key in reader.table else None


def _percent(reader: Reader, key: str, default: int | None = None) -> Decimal:
    percent = reader.number(key, default)
    if percent > 100:
        reader.fault(key, f"{percent} is more than 100 percent")
    return percent


def _word(reader: Reader, key: str, words: tuple[str, ...]) -> str:
    word = reader.text(key, words[0])
    if word not in words:
        reader.fault(key, f"{word!r} is not one of {', '.join(words)}")
    return word


def _included(reader: Reader) -> dict[str, Decimal]:
    table = reader.table.get("included", {})
    if not isinstance(table, dict):
        reader.fault("included", "write parts and how many of each, such as included = {tyre = 4}")
        return {}
    inner = Reader(reader.file, reader.place, table)
    return {part: inner.number(part) for part in table}
