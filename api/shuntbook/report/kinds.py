"""What each kind of entry holds in `data`, one class per kind; absent and null mean the same.

Unknown fields are let through here: the store keeps the entry's own bytes.
"""

from decimal import Decimal
from typing import Annotated, Literal

from msgspec import Meta, Struct

from shuntbook.kit.times import day_or_none
from shuntbook.report.arriving import ControlEntered, ControlLeft, DriverAsked
from shuntbook.report.body import Body, Count, Name, Names, Sha256, Text, within
from shuntbook.report.settling import (
    ChargeAdded,
    ChargeDecided,
    HandoverSigned,
    LineSettled,
    PartRetained,
    StatementIssued,
)


class ReportFiled(Body, frozen=True):
    """Damage or a symptom was seen."""


class ReportAmended(Body, frozen=True, kw_only=True):
    """The whole report as it should read now, in place of the versions it names."""

    replaces: Names


class ReportWithdrawn(Struct, frozen=True):
    """Filed by mistake: a version with no findings."""

    replaces: Names
    reason: Text = ""


class StageNothingSeen(Struct, frozen=True):
    """Nothing to report on that stage, seen from the seat or walked round."""

    stage: Name
    how: Literal["from-seat", "walked-round"] = "from-seat"


class ServiceEntered(Struct, frozen=True):
    """The car came in, on the officials' clock."""

    service: Name
    official_time: Text | None = None


class ServiceLeft(Struct, frozen=True):
    """The car went out, on the officials' clock."""

    service: Name
    official_time: Text | None = None


class DriverChanged(Struct, frozen=True):
    """Who drives from now on."""

    driver: Name


class CarRetired(Struct, frozen=True):
    """The car stopped and went no further by itself; the newest one says how it is now.

    km: into the stage. cause: the report that stopped it. restart: whether it will come back.
    """

    stage: Name | None = None
    ready_by: Text | None = None
    km: Decimal | None = None
    drives: Literal["well", "poorly", "no"] | None = None
    cause: Name | None = None
    recovered_by: Text = ""
    restart: Literal["yes", "no", "unknown"] | None = None

    def __post_init__(self) -> None:
        within("km", self.km, 0, 1000)


class CarRestarts(Struct, frozen=True):
    """The car comes back, ready by a time; with no time it goes on at once."""

    stage: Name | None = None
    ready_by: Text | None = None


class ReadingTaken(Struct, frozen=True):
    """A figure read or a quantity added: oil, peak temperature, pad mm, tread, odometer."""

    reading: Name
    value: int | float | Text
    unit: Text = ""
    place: Text | None = None


class IncidentGrouped(Struct, frozen=True):
    """These reports are of one hit: who else and what else was in it; `replaces` names groupings it takes over."""

    reports: Names
    title: Text = ""
    others_involved: bool = False
    others: Text = ""
    property_hit: Text = ""
    injured: Text = ""
    reported_to: Text = ""
    replaces: Names = []


class PhotoLinked(Struct, frozen=True):
    """A photo that belongs to the report or job that the entry is about."""

    photo: Sha256
    caption: Text | None = None


class VoiceLinked(Struct, frozen=True):
    """A voice note that belongs to the report or job that the entry is about; kept by its hash, as photos are."""

    voice: Sha256
    seconds: Decimal | None = None

    def __post_init__(self) -> None:
        within("seconds", self.seconds, 0, 3600)


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


class BriefingAcknowledged(Struct, frozen=True):
    """Driver or co-driver was told at service out what is done and what to watch; queue: hash of what was shown."""

    service: Name
    queue: Text | None = None


class CostAdjusted(Struct, frozen=True):
    """The manager corrects a job's cost by an amount, before tax."""

    line: Name
    amount: Decimal
    reason: Text = ""

    def __post_init__(self) -> None:
        within("amount", self.amount, -(10**9), 10**9)


class EntryVoided(Struct, frozen=True):
    """Undo of a mis-tap."""

    voids: Names
    reason: Text = ""


Version = ReportFiled | ReportAmended | ReportWithdrawn
Data = (
    Version
    | StageNothingSeen
    | ServiceEntered
    | ServiceLeft
    | DriverChanged
    | ControlEntered
    | ControlLeft
    | DriverAsked
    | CarRetired
    | CarRestarts
    | ReadingTaken
    | IncidentGrouped
    | PhotoLinked
    | VoiceLinked
    | JobStarted
    | JobStopped
    | JobFinished
    | JobDeferred
    | InspectionPassed
    | InspectionFailed
    | CarReleased
    | TaskStarted
    | TaskFinished
    | BriefingAcknowledged
    | CostAdjusted
    | HandoverSigned
    | ChargeDecided
    | ChargeAdded
    | PartFitted
    | PartRetained
    | StatementIssued
    | LineSettled
    | EntryVoided
)
KINDS: dict[str, type[Data]] = {
    "report.filed": ReportFiled,
    "report.amended": ReportAmended,
    "report.withdrawn": ReportWithdrawn,
    "stage.nothing_seen": StageNothingSeen,
    "service.entered": ServiceEntered,
    "service.left": ServiceLeft,
    "driver.changed": DriverChanged,
    "control.entered": ControlEntered,
    "control.left": ControlLeft,
    "driver.asked": DriverAsked,
    "car.retired": CarRetired,
    "car.restarts": CarRestarts,
    "reading.taken": ReadingTaken,
    "incident.grouped": IncidentGrouped,
    "photo.linked": PhotoLinked,
    "voice.linked": VoiceLinked,
    "job.started": JobStarted,
    "job.stopped": JobStopped,
    "job.finished": JobFinished,
    "job.deferred": JobDeferred,
    "inspection.passed": InspectionPassed,
    "inspection.failed": InspectionFailed,
    "car.released": CarReleased,
    "task.started": TaskStarted,
    "task.finished": TaskFinished,
    "briefing.acknowledged": BriefingAcknowledged,
    "cost.adjusted": CostAdjusted,
    "handover.signed": HandoverSigned,
    "charge.decided": ChargeDecided,
    "charge.added": ChargeAdded,
    "part.fitted": PartFitted,
    "part.retained": PartRetained,
    "statement.issued": StatementIssued,
    "statement.line_settled": LineSettled,
    "entry.voided": EntryVoided,
}
"""Every kind of entry by its name, with the class of its data."""

JOB_KINDS = frozenset(kind for kind in KINDS if kind.startswith(("job.", "inspection.")))
"""Kinds whose subject is a job's key."""

REPORT_KINDS = frozenset(kind for kind in KINDS if kind.startswith("report."))
"""Kinds whose subject is a report's id: the versions of a report."""
