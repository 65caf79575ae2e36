"""What each kind of entry holds in `data`, one class per kind; absent and null mean the same.

Unknown fields are let through here: the store keeps the entry's own bytes.
"""

from decimal import Decimal
from typing import Literal

from msgspec import Struct

from shuntbook.report.arriving import ControlEntered, ControlLeft, DriverAsked
from shuntbook.report.body import Body, Name, Names, Sha256, Text, within
from shuntbook.report.settling import (
    ChargeAdded,
    ChargeDecided,
    HandoverSigned,
    LineSettled,
    PartRetained,
    StatementIssued,
)
from shuntbook.report.working import (
    CarReleased,
    InspectionFailed,
    InspectionPassed,
    JobDeferred,
    JobFinished,
    JobStarted,
    JobStopped,
    PartFitted,
    TaskFinished,
    TaskStarted,
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
