"""The tree of errors that Shuntbook raises on purpose.

ShuntbookError              anything a person can fix; its text says what happened and what to do
├── BadSetup                an event folder, rate table or car map has faults; carries all of them
├── BadEntry                one entry cannot be taken as it is; carries the problem's code and field
├── ChangedMeanwhile        somebody else put another version in force since this one was begun
├── NotFound                an event, car, photo or device that the store does not hold
├── NotAllowed              the person's roles do not cover the call
├── NotJoined               no token, one that was shut out, or of a person who is in no event any more
├── BadKey                  a public key that is none, or not of the curve that is used
├── NotPossible             what was asked cannot be done to this thing, ever
├── TooMany                 too many wrong tries from one address; waiting helps
├── BadPhoto                bytes that are not the picture they claim to be
└── StoreUnavailable        disk full, locked or read-only: nothing was stored, try again
"""

from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Fault:
    """One fault of an input file, at a place that its author can find.

    file: name relative to the folder; row: 1-based line of the file, or 0 where there is none;
    column: CSV column, TOML key or JSON field, "" where the whole row is meant; index: which table of those with one
    header in a TOML file, from 0, or -1 where it is in none.
    """

    file: str
    row: int
    column: str
    what: str
    index: int = -1

    def __str__(self) -> str:
        row = f", row {self.row}" if self.row else ""
        column = f", {self.column}" if self.column else ""
        return f"{self.file}{row}{column}: {self.what}"

    def as_json(self) -> dict[str, str | int]:
        """Return the fault as problem details carry it."""
        place = {"index": self.index} if self.index >= 0 else {}
        return {"file": self.file, "row": self.row, "column": self.column, "what": self.what, **place}


class ShuntbookError(Exception):
    """Anything a person can fix."""


class BadSetup(ShuntbookError):
    """Faults in an event folder, rate table or car map; nothing of it was taken."""

    def __init__(self, faults: list[Fault]) -> None:
        self.faults = sorted(set(faults))
        super().__init__("\n".join(str(fault) for fault in self.faults))


class BadEntry(ShuntbookError):
    """One entry cannot be taken as it is.

    code: last part of the problem's type, such as `unknown-kind`; field: where, "" for the whole.
    """

    def __init__(self, code: str, what: str, field: str = "") -> None:
        self.code = code
        self.field = field
        super().__init__(what)


class ChangedMeanwhile(ShuntbookError):
    """Another version than the one that was edited is in force; nothing was changed."""


class NotFound(ShuntbookError):
    """The store does not hold what was asked for."""


class NotAllowed(ShuntbookError):
    """The person's roles do not cover the call."""


class NotJoined(ShuntbookError):
    """No token, an unknown one, a device that was shut out, a person who is in no event any more."""


class BadKey(ShuntbookError):
    """A public key that is none, or not of the curve that is used."""


class NotPossible(ShuntbookError):
    """What was asked cannot be done to this thing, ever."""


class TooMany(ShuntbookError):
    """Too many wrong tries from one address; waiting helps."""


class BadPhoto(ShuntbookError):
    """Bytes that are not the picture they claim to be."""


class StoreUnavailable(ShuntbookError):
    """Disk full, locked or read-only: nothing was stored; trying again later is right."""
