"""What is put down where a car arrives: a control where nobody may work on it, the driver asked in the bay."""

from typing import Annotated, Literal

from msgspec import Meta, Struct

from shuntbook.report.body import Name, Names, Text


class ControlEntered(Struct, frozen=True, kw_only=True):
    """The car came to where nobody may work on it: a control zone, a regroup or parc fermé; on the officials' clock."""

    control: Literal["control-zone", "regroup", "parc-ferme"]
    official_time: Text | None = None


class ControlLeft(Struct, frozen=True):
    """And out of it: `ends` names what brought it there: `control.entered`, or a `service.left` to parc fermé."""

    ends: Names
    official_time: Text | None = None


class Answer(Struct, frozen=True):
    """What the driver said to one question: as before, or not."""

    question: Name
    as_before: bool


class DriverAsked(Struct, frozen=True):
    """The driver was asked how the car goes; what is not as before stands in a report of its own."""

    answers: Annotated[list[Answer], Meta(max_length=50)]
    service: Name | None = None
