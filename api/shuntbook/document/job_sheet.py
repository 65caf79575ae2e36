"""The job sheet: what is open, in the queue's order, with boxes to tick and room to write, on one page."""

from collections.abc import Iterable
from fractions import Fraction
from math import ceil

from shuntbook.document.asked import to_ask
from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.document.heading import heading
from shuntbook.document.job_rows import is_open
from shuntbook.document.wording import Wording, plain, short
from shuntbook.kit.errors import NotFound
from shuntbook.kit.times import minutes_says
from shuntbook.queue.answer import Job, PartShort
from shuntbook.queue.asks import asks
from shuntbook.setup.itinerary import Service

BEGUN = {"started": "begun", "patched": "temporary repair there", "deferred": "left before"}
MOST_NAMES = 120
"""Jobs that have no row on the page are named below it, up to so many."""
TOOLS = "tools-counted"


def job_sheet(file: CarFile, paper: str, service: str | None = None) -> Json:
    """Return the data of the job sheet, of a service where one is named. Errors: NotFound."""
    wording = Wording(file.setup)
    meant = _service(file, service)
    jobs = [_job(file, job, wording) for job in file.queue.jobs if is_open(job)]
    # The queue has what is repaired last; a repair that nobody has checked yet is not to be overlooked at the foot.
    jobs.sort(key=lambda job: not job["critical"])
    head = heading(file, DOCUMENTS["job-sheet"], paper)
    if meant:
        head["title"] = wording.say("Job sheet, service {service}", service=meant.service)
    return {
        **head,
        "when": _when(meant, wording),
        "hold": file.queue.release == "hold",
        "jobs": jobs,
        "most_names": MOST_NAMES,
        "asked": [to_ask(one, wording) for one in asks(file.entries, file.setup) if one.ask != "tools"],
        "routine": [wording.plain(task.task) for task in _routine(file, meant) if task.task != TOOLS],
        "calls": _grouped(call for job in jobs for call in job["calls"]),
    }


def _service(file: CarFile, name: str | None) -> Service | None:
    services = {service.service: service for service in file.setup.event.services}
    if name and name not in services:
        raise NotFound(f"there is no service {name!r}; the event's services are {', '.join(services)}")
    return services.get(name or "")


def _when(service: Service | None, wording: Wording) -> str:
    if service is None:
        return ""
    say, work = wording.say, wording.number(service.minutes - service.in_and_out_minutes)
    due = say("due in {when}, ", when=wording.moment(service.arrive)) if service.arrive else ""
    said = "{minutes} min from control to control, {work} min of them for work"
    return due + say(said, minutes=service.minutes, work=work)


def _routine(file: CarFile, service: Service | None) -> list:  # type: ignore[type-arg]
    return [t for t in file.setup.event.routine if service and (not t.services or service.service in t.services)]


def _job(file: CarFile, job: Job, wording: Wording) -> Json:
    estimate = job.estimate
    what = wording.is_how(job.component, job.condition)
    people = f" × {estimate.mechanics}" if estimate.mechanics != 1 else ""
    return {
        "area": wording.zone(job.zone),
        "what": short(what, 60),
        "critical": job.safety_critical,
        "must": job.must_do,
        "do": wording.say("check") if job.over else short(wording.plain(job.action), 30),
        "begun": wording.say(BEGUN.get(job.state, "")),
        "minutes": "" if job.over else f"{minutes_says(_planned(estimate.minutes_expected))}{people}",
        "parts": "" if job.over else short(", ".join(_part(part, wording) for part in estimate.parts), 70),
        "access": "" if job.over else short(", ".join(_step(step, wording) for step in estimate.access), 45),
        "check": job.to_inspect,
        "calls": _calls(file, job, wording),
    }


def _planned(minutes: float) -> Fraction:
    """Return expected minutes as a plan counts them: up to the next 15 s."""
    return Fraction(ceil(Fraction(str(minutes)) * 4), 4)


def _part(part: PartShort, wording: Wording) -> str:
    qty = f" × {wording.number(part.qty)}" if part.qty != 1 else ""
    short_of = wording.say(" (SHORT {n})", n=wording.number(part.short)) if part.short else ""
    return f"{wording.part(part.part)}{qty}{short_of}"


def _step(step: str, wording: Wording) -> str:
    # A way that is "made safe" in a table is called made ready: the sheet promises nothing.
    return wording.say(plain(step.replace("made-safe", "made-ready")))


def _grouped(calls: Iterable[tuple[str, str]]) -> list[Json]:
    """Return each reason to call somebody once, with the parts that it is about."""
    parts: dict[str, dict[str, None]] = {}
    for why, part in calls:
        parts.setdefault(why, {})[part] = None
    return [{"why": why, "parts": list(of)} for why, of in parts.items()]


def _calls(file: CarFile, job: Job, wording: Wording) -> list[tuple[str, str]]:
    """Return why somebody has to be called before this job is begun or covered up, with the part."""
    name = wording.job(job.job)
    component = file.setup.car_map.components.get(job.component)
    row = file.setup.rates.operation(job.component, job.condition, job.zone)
    said = []
    if component and component.sealed:
        said.append("Sealed: call the scrutineer before it comes off")
    if job.group == "cage":
        said.append("Cage: an official sees it bare, before trim and padding go back")
    if row and row.fire_risk:
        said.append("Open fuel: all other work stops, nobody aboard, extinguisher manned, officials told")
    return [(wording.say(one), name) for one in said]
