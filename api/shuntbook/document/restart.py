"""The restart sheet: one page for re-scrutineering, short enough to be copied by hand."""

from collections.abc import Sequence

from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.document.dated_items import dated_items
from shuntbook.document.drawing import car_drawing
from shuntbook.document.heading import heading
from shuntbook.document.job_rows import is_open, officials_words, row
from shuntbook.document.reports import body_of, standing_reports
from shuntbook.document.wording import Wording, sentence, short
from shuntbook.kit.times import instant
from shuntbook.queue.answer import Job
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import CarRestarts, CarRetired, DriverChanged, IncidentGrouped, ServiceLeft
from shuntbook.setup.words import UNKNOWN

MOST = 5
"""Lines of what was hit; the newest are shown."""


def restart_sheet(file: CarFile, paper: str) -> Json:
    """Return the data of the restart sheet. Errors: NotFound for a paper that there is none of."""
    wording = Wording(file.setup)
    since = _since(file)
    jobs = [job for job in file.queue.jobs if is_open(job) or _touched(file, job.job, since)]
    # What does not fit on the page is the rest: damage that was seen is never pushed off it by what is to be looked at.
    jobs.sort(key=lambda job: (_is_look(job), not job.safety_critical))
    rows = [row(file, job, wording) for job in jobs]
    cage = [one for one, job in zip(rows, jobs, strict=True) if job.group == "cage"]
    return {
        **heading(file, DOCUMENTS["restart-sheet"], paper),
        "crew": crew(file, wording),
        "stopped": _stopped(file, wording),
        "hits": _hits(file, since, wording),
        "drawing": _drawing(jobs, wording),
        # The template puts what fits by area.
        "rows": rows,
        "areas": list(dict.fromkeys([*map(wording.zone, file.setup.car_map.zones), *(one["area"] for one in rows)])),
        "cage": short(wording.say("; ").join(one["found"].removeprefix(wording.say("Cage: ")) for one in cage), 200),
        "dated": dated_items(file, wording),
        "officials": [short(words, 200) for words in officials_words(file, wording)[-3:]],
    }


def _drawing(jobs: Sequence[Job], wording: Wording) -> Json | None:
    """Return the car with the places where damage was seen: crossed where it is safety-critical."""
    seen = [job for job in jobs if not _is_look(job)]
    steps: dict[str, int] = {}
    for job in seen:
        steps[job.zone] = max(steps.get(job.zone, 0), 4 if job.safety_critical else 2)
    said = wording.say("damage seen; crossed: safety-critical")
    return car_drawing(steps, said, wording) if steps else None


def _is_look(job: Job) -> bool:
    """Return whether nobody saw damage there: it follows from something else, or is only to be looked at."""
    return job.knock_on or job.condition == UNKNOWN


def crew(file: CarFile, wording: Wording) -> str:
    """Return who was in the car: the driver as last said, and who of the crews wrote in this car's log."""
    event = file.setup.event
    changed = file.last(DriverChanged)
    people = [changed[1].driver] if changed else []
    for role in ("driver", "co-driver"):
        if role == "driver" and changed:
            continue
        people += [entry.person for entry in file.standing if event.has_role(entry.person, role)]
    return ", ".join(wording.person(person) for person in dict.fromkeys(people))


def _stopped(file: CarFile, wording: Wording) -> list[str]:
    retired, restarts = file.last(CarRetired), file.last(CarRestarts)
    said, say = [], wording.say
    if retired:
        entry, data = retired
        km = f", km {wording.number(data.km)}" if data.km is not None else ""
        drives = say({"no": ", did not drive", "poorly": ", drove poorly"}.get(data.drives or "", ""))
        by = say("; recovered by {who}", who=short(data.recovered_by, 60)) if data.recovered_by else ""
        when = say("Stopped {when}", when=wording.clock(entry.at))
        said.append(f"{when}{f', {data.stage}' if data.stage else ''}{km}{drives}{by}")
    stuck = [entry for entry in standing_reports(file) if body_of(entry).drives == "no"]
    for entry in stuck[-1:]:
        body = body_of(entry)
        where = ", ".join(filter(None, (wording.place(body), wording.hit(body))))
        said.append(short(f"{where}. {body.note}".strip(". "), 160))
    if restarts:
        ready = restarts[1].ready_by
        by = say(", ready by {when}", when=wording.clock(ready)) if ready else ""
        stage = restarts[1].stage
        said.append((say("Restarts with {stage}", stage=stage) if stage else say("Restarts")) + by)
    return said


def _hits(file: CarFile, since: str, wording: Wording) -> list[str]:
    grouped = {report: data.title for _, data in file.of(IncidentGrouped) for report in data.reports}
    said: dict[str, None] = {}
    for entry in standing_reports(file):
        body = body_of(entry)
        hit = wording.hit(body)
        if hit and body.where != "hand-over" and _later(entry, since):
            words = (wording.place(body), grouped.get(entry.subject, ""), wording.zone(body.zone), hit)
            said[sentence(short(", ".join(filter(None, words)), 110))] = None
    return list(said)[-MOST:]


def _since(file: CarFile) -> str:
    """Return when the car last left a service before it stopped, "" where the whole log is meant."""
    retired = file.last(CarRetired)
    if retired is None:
        return ""
    stopped = instant(retired[0].at)
    left = [entry.at for entry, _ in file.of(ServiceLeft) if instant(entry.at) < stopped]
    return left[-1] if left else ""


def _touched(file: CarFile, job: str, since: str) -> bool:
    by_id = {entry.id: entry for entry in file.log.acts.get(job, [])}
    named = {finding.entry for finding in file.log.findings.get(job, [])}
    about = [*by_id.values(), *(entry for entry in file.log.entries if entry.id in named)]
    return any(_later(entry, since) for entry in about)


def _later(entry: Entry, since: str) -> bool:
    return not since or instant(entry.at) > instant(since)
