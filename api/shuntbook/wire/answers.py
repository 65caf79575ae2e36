"""What calls answer with that follows from no rule: sync, joining, photos; and the batch that a sync takes.

Their JSON Schemas come from them (`wire.openapi`), as those of queue, plan, costs and season do.
"""

from typing import Annotated, Any

from msgspec import Meta, Raw, Struct

from shuntbook.setup.words import ROLES
from shuntbook.wire.entries import REF
from shuntbook.wire.withheld import Withheld, WithheldHead

Role = Annotated[str, Meta(extra_json_schema={"enum": list(ROLES)})]
AnEntry = Annotated[Raw, Meta(extra_json_schema={"$ref": REF.format(name="Entry")})]
"""An entry as the bytes that it came as."""


SentEntry = Annotated[
    Raw,
    Meta(
        extra_json_schema={
            "anyOf": [{"$ref": REF.format(name=one)} for one in ("Entry", Withheld.__name__, WithheldHead.__name__)]
        }
    ),
]
"""An entry, or what stands in its place for who may not see it."""


class SyncRequest(Struct):
    """A batch: each entry stays the bytes that came. msgspec decodes this envelope, since marshmallow takes
    many times longer on a batch of entries."""

    entries: Annotated[list[AnEntry], Meta(extra_json_schema={"maxItems": 500})] = []
    cursor: Annotated[int, Meta(ge=0)] = 0
    log_id: Annotated[str, Meta(description="the log that the cursor counts in")] | None = None
    now: Annotated[str, Meta(description="the device's clock", extra_json_schema={"format": "date-time"})] | None = None
    heads: Annotated[bool, Meta(description="what stands for a withheld entry is to have that entry's head")] = False
    lacks: Annotated[
        list[str], Meta(max_length=500, description="entries that were withheld, which the person may see by now")
    ] = []


class Rejected(Struct, frozen=True):
    """An entry that went to review, with the reason; id is null where it can't be read."""

    id: str | None
    problem: Annotated[dict[str, Any], Meta(extra_json_schema={"$ref": REF.format(name="Problem")})]


class ChangedCar(Struct, frozen=True):
    """A car whose queue or costs may be others."""

    event: str
    car: str


class SyncAnswer(Struct, frozen=True):
    """What is acknowledged, what needs review, what is new. A server of 0.1.0 says none of the last three."""

    log_id: str
    cursor: int
    accepted: list[str]
    rejected: list[Rejected]
    entries: list[SentEntry]
    more: bool
    setup: Annotated[str, Meta(description="the ETag of /setup, without its marks")] = ""
    set_aside: Annotated[str, Meta(description="another where something came to need review or was decided on")] = ""
    cars: Annotated[list[ChangedCar], Meta(description="changed by the entries after the phone's cursor")] = []


class Photo(Struct, frozen=True):
    """A photo that the server holds; width and height as shown."""

    photo: str
    width: int
    height: int


class Joined(Struct, frozen=True):
    """Who joined, on which device, with the token for every further call."""

    token: str
    device: str
    person: str
    name: str
    roles: list[Role]
    events: list[str]


class Invited(Struct, frozen=True):
    """A join code and the link that carries it in its fragment."""

    code: str
    link: str


class GroupLeftOut(Struct, frozen=True):
    """How many entries that went to review are left out now."""

    left_out: int


class DevicesTaken(Struct, frozen=True):
    """How many devices are known now, and how many entries that went to review are believed now."""

    devices: int
    believed: int
