"""What entries about the work on a car hold: jobs, parts that went in, inspections, releases, tasks of the plan."""

from decimal import Decimal
from typing import Annotated, Literal

from msgspec import Meta, Struct

from shuntbook.kit.times import day_or_none
from shuntbook.report.body import Count, Name, Names, Text, within


class JobStarted(Struct, frozen=True):
    """A mechanic is on the job."""


class JobStopped(Struct, frozen=True):
    """And off it."""

    ends: Names = []


class PartUsed(Struct, frozen=True):
    """How many of a part went in."""

    part: Name
    qty: Decimal = Decimal(1)

    def __post_init__(self) -> None:
        within("qty", self.qty, 0, 100_000)


class JobFinished(Struct, frozen=True, kw_only=True):
    """The repair of what it covers is done, for good or temporarily; minutes None = not timed."""

    covers: Names = []
    ends: Names = []
    action: Text = ""
    minutes: Decimal | None = None
    mechanics: Count | None = None
    parts: Annotated[list[PartUsed], Meta(max_length=200)] = []
    repairers: Names = []
    temporary: bool = False
    service: Name | None = None

    def __post_init__(self) -> None:
        within("minutes", self.minutes, 0, 100_000)


class PartFitted(Struct, frozen=True):
    """A part went in, and its life counts from then; the entry is about its zone/component.

    serial: what tells it from others; one that was fitted before goes on with its life unless it was `rebuilt`. since:
    the day that its life counts from (YYYY-MM-DD), where that is not the entry's own time.
    """

    serial: Annotated[str, Meta(max_length=200)] = ""
    rebuilt: bool = False
    since: str | None = None
    note: Text = ""

    def __post_init__(self) -> None:
        if self.since is not None and day_or_none(self.since) is None:
            raise ValueError("since is not a day such as 2026-05-31")


class JobDeferred(Struct, frozen=True):
    """Left knowingly, for the next service or for the crew on the road."""

    covers: Names = []
    to: Literal["next-service", "road"] = "next-service"
    reason: Text = ""


class CheckDone(Struct, frozen=True):
    """One line of an inspection's check list; `ok` None: not done, and `why` says why not."""

    check: Text
    ok: bool | None = None
    why: Text | None = None


class Inspection(Struct, frozen=True, kw_only=True):
    """What somebody looked at, how it stood, until when it holds, and what an official said of it."""

    covers: Names = []
    checks: Annotated[list[CheckDone], Meta(max_length=200)] = []
    until: Name | None = None
    shown_to: Text | None = None
    official_said: Text | None = None
    note: Text | None = None


class InspectionPassed(Inspection, frozen=True):
    """Somebody looked and found it in order."""


class InspectionFailed(Inspection, frozen=True):
    """Somebody looked and found it wanting."""


class Answered(Struct, frozen=True):
    """What was answered at a release: `ask` is nuts, toe, pedal or tools, `place` a zone or "" for the whole car.

    entries: the work and inspections that it is about; ok None: not done, and `why` says why not; by: who did it.
    """

    ask: Name
    place: Text = ""
    entries: Annotated[list[Name], Meta(max_length=2000)] = []
    ok: bool | None = None
    by: Name | None = None
    why: Text | None = None


class CarReleased(Struct, frozen=True):
    """The car may leave service: a fact, even if the car was on hold."""

    service: Name
    covers: Annotated[list[Name], Meta(max_length=2000)] = []
    reason: Text | None = None
    answers: Annotated[list[Answered], Meta(max_length=200)] = []


class TaskStarted(Struct, frozen=True):
    """Somebody is on a task of the plan that is no job: access, routine work, a check; the entry is about its name."""

    service: Name


class TaskFinished(Struct, frozen=True):
    """A task of the plan that is no job is done."""

    service: Name
