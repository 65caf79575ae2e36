"""What a set-up can say: one line for each key, from which reader, difference, JSON, schema, form and page are made.

The lines themselves are in `event_keys`, `rate_keys` and `map_keys`; `tables` puts them together.
"""

from dataclasses import dataclass
from typing import Any, Literal

Kind = Literal["text", "number", "whole", "money", "flag", "list", "points", "quantities", "day", "time"]
"""text; number, whole number or money; true or false; names; best, likely and worst; part*quantity; a day; a time."""

Shape = Literal["csv", "top", "one", "rows", "named", "values"]
"""Rows of a CSV file; TOML's own keys, one table, an array of tables, tables by name, values by name."""

Seen = Literal["all", "managers"]
"""Who is told a key: every phone of the event by `GET /setup`, or managers alone, in the set-up's files."""

MOST = 999_999_999_999
"""The largest number that a set-up can hold: 12 digits before the point."""
DECIMALS = 30
"""The most digits after the point."""


@dataclass(frozen=True)
class Key:
    """One key of a table, or column of a CSV file.

    default: its value where nothing is said; a key without one is optional (None) unless `required`. same: the key
    whose value it has by default. first: what the set-up of a team's first event says. least, most: bounds of a number,
    both included; above: what it has to be above. among: the words that it may hold. refers: `table.key` whose values
    are suggested; strict: and that it must be one of; stricter: only since release 0.1.0. plain: a name without a
    slash. jobs: names of zone/component. distinct: names that stand once; unordered: whose order says nothing; filled:
    at least one. exact: its number in JSON is not rounded to two decimals. long: whole sentences. added: came after
    release 0.1.0. used: something follows from it; where nothing does yet, whoever sets it is told.
    """

    key: str
    kind: Kind
    help: str
    default: Any = None
    required: bool = False
    same: str = ""
    first: str = ""
    least: int = 0
    most: int = MOST
    above: int | None = None
    unit: str = ""
    among: tuple[str, ...] = ()
    refers: str = ""
    strict: bool = False
    stricter: bool = False
    plain: bool = False
    jobs: bool = False
    distinct: bool = False
    unordered: bool = False
    filled: bool = False
    exact: bool = False
    long: bool = False
    seen: Seen = "managers"
    added: bool = False
    used: bool = True


@dataclass(frozen=True)
class Table:
    """A table of a file. keys: what tells rows apart. title: what one row is called in a fault.

    unique: each of these keys stands once in the table. closed: a key that is not known is a fault, not a warning.
    needed: a CSV column that is not required may be absent; a file that is not `needed` may be absent, too.
    """

    table: str
    file: str
    shape: Shape
    keys: tuple[str, ...]
    columns: tuple[Key, ...]
    unique: tuple[str, ...] = ()
    closed: bool = False

    def column(self, name: str) -> Key | None:
        """Return a key by its name, or None for one that is not known."""
        return next((one for one in self.columns if one.key == name), None)

    @property
    def is_form(self) -> bool:
        """Whether it has one row."""
        return self.shape in ("top", "one")


def text(key: str, about: str, default: str | None = "", **more: Any) -> Key:
    """Return a key of text, "" where nothing is said."""
    return Key(key, "text", about, default=default, **more)


def name(key: str, about: str, **more: Any) -> Key:
    """Return a key of text that must be filled."""
    return Key(key, "text", about, required=True, **more)


def word(key: str, among: tuple[str, ...], about: str, **more: Any) -> Key:
    """Return a key of one of these words; the first where nothing is said."""
    return Key(key, "text", about, **({"default": among[0], "among": among} | more))


def number(key: str, most: int, unit: str, about: str, **more: Any) -> Key:
    """Return a key of a number from 0 to `most`, unless another `least` is given."""
    return Key(key, "number", about, most=most, unit=unit, **more)


def money(key: str, unit: str, about: str, **more: Any) -> Key:
    """Return a key of an amount with at most the decimals of the currency."""
    return Key(key, "money", about, unit=unit, **more)


def whole(key: str, most: int, unit: str, about: str, **more: Any) -> Key:
    """Return a key of a whole number from 0 to `most`, unless another `least` is given."""
    return Key(key, "whole", about, most=most, unit=unit, **more)


def flag(key: str, about: str, default: bool | None = False, **more: Any) -> Key:
    """Return a key of true or false; by default false, or None where the file then says nothing."""
    return Key(key, "flag", about, default=default, among=("true", "false"), **more)


def names(key: str, about: str, **more: Any) -> Key:
    """Return a key of a list of names, empty where nothing is said."""
    return Key(key, "list", about, default=(), **more)


def points(key: str, about: str, **more: Any) -> Key:
    """Return a key of best, likely and worst minutes, above 0 and in order."""
    return Key(key, "points", about, unit="min", above=0, **({"most": MINUTES} | more))


def quantities(key: str, about: str, **more: Any) -> Key:
    """Return a key of how many of each part."""
    return Key(key, "quantities", about, **({"most": QUANTITY} | more))


MINUTES = 100_000
"""The most minutes of anything: nine weeks."""
PEOPLE = 1_000
"""The most people that anything can need."""
QUANTITY = 1_000_000
"""The most of one part."""
