"""What each kind of entry says in a record, as a title and lines."""

from collections.abc import Callable
from typing import Any

from shuntbook.document.asked import ASKED
from shuntbook.document.car_file import CarFile
from shuntbook.document.job_rows import parts, was_done
from shuntbook.document.signatures import signature_says
from shuntbook.document.wording import Wording, sentence
from shuntbook.fold.voids import failed
from shuntbook.kit.times import minutes_says
from shuntbook.report.arriving import ControlEntered, ControlLeft, DriverAsked
from shuntbook.report.body import Body
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import (
    CarRestarts,
    CarRetired,
    DriverChanged,
    PhotoLinked,
    ReadingTaken,
    ServiceEntered,
    ServiceLeft,
    StageNothingSeen,
    VoiceLinked,
)
from shuntbook.report.settling import HandoverSigned, PartRetained
from shuntbook.report.working import (
    Answered,
    CarReleased,
    CheckDone,
    Inspection,
    InspectionFailed,
    InspectionPassed,
    JobDeferred,
    JobFinished,
    PartFitted,
)
from shuntbook.setup.words import is_job_key

Said = tuple[str, list[str]]


def said_of(entry: Entry, file: CarFile, wording: Wording) -> Said:
    """Return a title and lines for an entry of a kind that a record tells."""
    if isinstance(entry.data, Body):
        return _report(entry, entry.data, wording)
    return WORDS[type(entry.data)](entry, entry.data, wording)


def _report(entry: Entry, body: Body, wording: Wording) -> Said:
    say = wording.say
    title = "Report (as corrected): {what}" if entry.kind == "report.amended" else "Report: {what}"
    drives = say({"well": "drives well", "poorly": "drives poorly", "no": "does not drive"}.get(body.drives or "", ""))
    where = ", ".join(filter(None, (wording.place(body), wording.hit(body), drives)))
    return say(title, what=wording.found(body)), [sentence(where), wording.noted("Note", body.note)]


def _finished(entry: Entry, data: JobFinished, wording: Wording) -> Said:
    say = wording.say
    kind = "Temporary repair: {part}" if data.temporary else "Repair: {part}"
    took = say("not timed") if data.minutes is None else minutes_says(data.minutes)
    hands = say(", {n} mechanics", n=data.mechanics) if data.mechanics and data.mechanics > 1 else ""
    used = wording.noted("Parts", parts(data.parts, wording))
    people = wording.noted("By", wording.people([entry.person, *data.repairers]))
    lines = [f"{sentence(was_done(data.action, wording))}, {took}{hands}", used, people]
    return say(kind, part=wording.job(entry.subject)), lines


def _deferred(entry: Entry, data: JobDeferred, wording: Wording) -> Said:
    to = "Left for the next service: {part}" if data.to == "next-service" else "Left to the crew of the car: {part}"
    return wording.say(to, part=wording.job(entry.subject)), [data.reason]


def _looked(entry: Entry, data: Inspection, wording: Wording) -> Said:
    say = wording.say
    official = "The official said, as typed by the team: “{said}”"
    lines = [
        wording.noted("Inspected", say("; ").join(_checked(check, wording) for check in data.checks)),
        say("Accepted until service {service} is entered", service=data.until) if data.until else "",
        say("Shown to {whom}", whom=data.shown_to) if data.shown_to else "",
        say(official, said=data.official_said) if data.official_said else "",
        wording.noted("Note", data.note),
    ]
    how = "Checked by (team) {who}, failed: {part}" if failed(entry) else "Checked by (team) {who}, passed: {part}"
    return say(how, who=wording.person(entry.person), part=wording.job(entry.subject)), lines


def _checked(check: CheckDone, wording: Wording) -> str:
    what = wording.say.label(check.check)
    if check.ok is None:
        return wording.say("{what} NOT CHECKED", what=what) + (f" ({check.why})" if check.why else "")
    return what if check.ok else wording.say("{what} NOT in order", what=what)


def _released(entry: Entry, data: CarReleased, wording: Wording) -> Said:
    answers = wording.say("; ").join(_answered(one, wording) for one in data.answers)
    lines = [wording.noted("Reason", data.reason), wording.noted("Asked before it left", answers)]
    return wording.say("Released from service {service}", service=data.service), lines


def _answered(answer: Answered, wording: Wording) -> str:
    where = f", {wording.zone(answer.place)}" if answer.place else ""
    said = "{what}" if answer.ok else "{what} NOT DONE" if answer.ok is None else "{what} NOT in order"
    what = wording.say(ASKED.get(answer.ask, answer.ask)) + where
    who = f", {wording.person(answer.by)}" if answer.by else ""
    why = f" ({answer.why})" if answer.why else ""
    return f"{wording.say(said, what=what)}{who}{why}"


DRIVES = {"well": "yes", "poorly": "poorly", "no": "no"}
RESTART = {"yes": "yes", "no": "no", "unknown": "not known yet"}


def _retired(entry: Entry, data: CarRetired, wording: Wording) -> Said:
    say = wording.say
    km = f", km {wording.number(data.km)}" if data.km is not None else ""
    more = [
        wording.noted("Drives", say(DRIVES[data.drives])) if data.drives else "",
        wording.noted("Recovered by", data.recovered_by),
        wording.noted("Restart", say(RESTART[data.restart])) if data.restart else "",
    ]
    title = say("Stopped on {stage}", stage=data.stage) if data.stage else say("Stopped")
    return title + km, [line for line in more if line]


def _restarts(entry: Entry, data: CarRestarts, wording: Wording) -> Said:
    say = wording.say
    ready = say("Ready by {when}", when=wording.clock(data.ready_by)) if data.ready_by else ""
    return say("Restarts with {stage}", stage=data.stage) if data.stage else say("Restarts"), [ready]


def _reading(entry: Entry, data: ReadingTaken, wording: Wording) -> Said:
    place = f", {wording.zone(data.place)}" if data.place else ""
    read = data.value if isinstance(data.value, str) else wording.number(data.value)
    value = f"{read} {data.unit}".rstrip()
    return wording.say("Reading: {what}: {value}", what=wording.plain(data.reading) + place, value=value), []


def _nothing_seen(entry: Entry, data: StageNothingSeen, wording: Wording) -> Said:
    seat = "{stage}: nothing seen, from the seat" if data.how == "from-seat" else "{stage}: nothing seen, walked round"
    return wording.say(seat, stage=data.stage), []


def _official(time: str | None, wording: Wording) -> str:
    return wording.noted("Officials' clock", wording.clock(time)) if time else ""


def _service(word: str) -> Callable[[Entry, Any, Wording], Said]:
    def said(entry: Entry, data: Any, wording: Wording) -> Said:
        return wording.say(word, service=data.service), [_official(data.official_time, wording)]

    return said


def _control_entered(entry: Entry, data: ControlEntered, wording: Wording) -> Said:
    return wording.say(CONTROLS[data.control]), [_official(data.official_time, wording)]


def _control_left(entry: Entry, data: ControlLeft, wording: Wording) -> Said:
    return wording.say("Left the control: work may go on"), [_official(data.official_time, wording)]


def _asked(entry: Entry, data: DriverAsked, wording: Wording) -> Said:
    changed = ", ".join(wording.plain(answer.question) for answer in data.answers if not answer.as_before)
    said = "Driver debrief: not as before: {what}" if changed else "Driver debrief: all as before"
    return wording.say(said, what=changed), []


def _driver(entry: Entry, data: DriverChanged, wording: Wording) -> Said:
    return wording.say("From now on {who} drives", who=wording.person(data.driver)), []


def _walk(entry: Entry, data: HandoverSigned, wording: Wording) -> Said:
    say = wording.say
    title = say("The car was handed over" if data.walk == "out" else "The car was returned")
    return title, [" ".join(signature_says(one, say) for one in data.signed), data.note]


def _retained(entry: Entry, data: PartRetained, wording: Wording) -> Said:
    said = "Part kept: {part}, tag {tag}, shelf {shelf}" if data.shelf else "Part kept: {part}, tag {tag}"
    return wording.say(said, part=wording.job(entry.subject), tag=data.tag, shelf=data.shelf), []


def _fitted(entry: Entry, data: PartFitted, wording: Wording) -> Said:
    say = wording.say
    serial = say(", no. {serial}", serial=data.serial) if data.serial else ""
    since = say(", its life counts from {day}", day=wording.day(str(data.since))) if data.since else ""
    title = "Rebuilt part fitted: {part}" if data.rebuilt else "Part fitted: {part}"
    return say(title, part=wording.job(entry.subject)) + serial + since, [data.note]


def _photo(entry: Entry, data: PhotoLinked, wording: Wording) -> Said:
    if not is_job_key(entry.subject):
        return wording.say("Photo"), []
    return wording.say("Photo: {part}", part=wording.job(entry.subject)), []


def _voice(entry: Entry, data: VoiceLinked, wording: Wording) -> Said:
    say = wording.say
    of = is_job_key(entry.subject)
    title = say("Voice note: {part}", part=wording.job(entry.subject)) if of else say("Voice note")
    length = "" if data.seconds is None else f", {wording.number(data.seconds)} s"
    return title + length, [say("To be heard in the app; not written out here.")]


CONTROLS = {
    "control-zone": "Came into a control zone: no work on the car",
    "regroup": "Came into a regroup: no work on the car",
    "parc-ferme": "Came into parc fermé: no work on the car",
}

WORDS: dict[type, Callable[[Entry, Any, Wording], Said]] = {
    JobFinished: _finished,
    JobDeferred: _deferred,
    InspectionPassed: _looked,
    InspectionFailed: _looked,
    CarReleased: _released,
    CarRetired: _retired,
    CarRestarts: _restarts,
    ReadingTaken: _reading,
    StageNothingSeen: _nothing_seen,
    ServiceEntered: _service("Entered service {service}"),
    ServiceLeft: _service("Left service {service}"),
    DriverChanged: _driver,
    ControlEntered: _control_entered,
    ControlLeft: _control_left,
    DriverAsked: _asked,
    HandoverSigned: _walk,
    PartFitted: _fitted,
    PartRetained: _retained,
    PhotoLinked: _photo,
    VoiceLinked: _voice,
}
"""The kinds beside reports that a record tells, each with what it says."""
