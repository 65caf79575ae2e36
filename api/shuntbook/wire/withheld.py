"""What is sent in the place of an entry that somebody may not see: it counts as the entry does, and says nothing of it.

A phone asks for the entry's head, too, which tells a gap in a device's numbers from a number that is withheld. That has
an entry's shape, since an app of 0.1 takes no answer with anything else in it.
"""

from typing import Any, Literal

import msgspec
from msgspec import Struct

KIND = "withheld"
KIND_OF_OTHERS = "withheld.car"


class Withheld(Struct, frozen=True):
    """Stands for an entry that is not shown."""

    id: str
    event: str
    car: str
    withheld: Literal[True]


class WithheldHead(Struct, frozen=True):
    """Stands for an entry with its head: `withheld.car` of another car, `withheld` if nothing follows from it."""

    id: str
    v: Literal[1]
    kind: Literal["withheld", "withheld.car"]
    event: str
    car: str
    subject: str
    at: str
    device: str
    seq: int
    person: str
    data: dict[str, Any]
    withheld: Literal[True]


class _Head(Struct):
    id: str
    event: str
    car: str
    at: str
    device: str
    seq: int
    person: str


class _Kind(Struct):
    id: str
    kind: str = KIND
    withheld: bool = False


def withheld(raw: bytes, *, is_others: bool, heads: bool) -> bytes:
    """Return what stands for an entry of the log. is_others: it is of a car that the person is not shown."""
    one = msgspec.json.decode(raw, type=_Head)
    if not heads:
        return msgspec.json.encode(Withheld(one.id, one.event, one.car, withheld=True))
    kind: Literal["withheld", "withheld.car"] = "withheld.car" if is_others else "withheld"
    return msgspec.json.encode(
        WithheldHead(
            one.id, 1, kind, one.event, one.car, "", one.at, one.device, one.seq, one.person, {}, withheld=True
        )
    )


def is_withheld(raw: bytes) -> str | None:
    """Return the id of what stands for an entry, None for anything else."""
    try:
        one = msgspec.json.decode(raw, type=_Kind)
    except (ValueError, RecursionError):
        return None
    return one.id if one.withheld and one.kind in (KIND, KIND_OF_OTHERS) else None
