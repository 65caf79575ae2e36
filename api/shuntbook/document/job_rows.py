"""A job as a row of a sheet: found, done, part, who repaired, who of the team checked."""

from collections.abc import Iterable

from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.wording import Wording, plain, short
from shuntbook.fold.voids import failed
from shuntbook.queue.acts import Acts, acts_on
from shuntbook.queue.answer import Job
from shuntbook.report.entry import Entry
from shuntbook.report.working import Inspection, JobDeferred, PartUsed

LEFT = {"next-service": "left for the next service", "road": "left to the crew of the car"}


def row(file: CarFile, job: Job, wording: Wording) -> Json:
    """Return a job as a row of short texts; `critical` ones come first where room is short."""
    entries = file.log.acts.get(job.job, [])
    acts = acts_on(job.job, entries)
    return {
        "job": job.job,
        "critical": job.safety_critical,
        "area": wording.zone(job.zone),
        "found": short(wording.is_how(job.component, job.condition), 60),
        "done": short(done(job, acts, entries, wording), 60),
        "part": short(parts((part for repair in acts.repairs for part in repair.data.parts), wording), 50),
        "repaired": short(wording.people(person for repair in acts.repairs for person in repair.repairers), 40),
        "checked": short(checked(job, entries, wording), 70),
        "open": is_open(job),
    }


def is_open(job: Job) -> bool:
    """Return whether anything about a job is left: to repair, or to be checked."""
    return not job.over or job.to_inspect


def done(job: Job, acts: Acts, entries: Iterable[Entry], wording: Wording) -> str:
    """Return what was done: actions, what of them is temporary, or why nothing."""
    say = wording.say
    said = [f"{was_done(r.data.action, wording)}{say(' (temporary)') if r.temporary else ''}" for r in acts.repairs]
    left = [LEFT[e.data.to] for e in entries if isinstance(e.data, JobDeferred)][-1:]
    words = {
        "accepted": "inspected, left as it is",
        "deferred": left[0] if left else "left",
        "started": "begun, not finished",
    }
    if job.state in words:
        said.append(say(words[job.state]))
    elif not said or job.state == "open":
        said.append(say("open"))
    return ", ".join(dict.fromkeys(said))


DONE = {
    "replace": "replaced",
    "swap": "swapped",
    "renew": "renewed",
    "beat-straight": "beaten straight",
    "seal": "sealed",
    "sleeve": "sleeved",
    "repair": "repaired",
    "straighten": "straightened",
    "refit": "refitted",
    "tape": "taped",
    "bleed": "bled",
    "clean": "cleaned",
    "tighten": "tightened",
    "weld": "welded",
    "inspect": "inspected",
    "assess": "assessed",
}
"""The package's actions once they are done; a team's own stays as it is written."""


def was_done(action: str, wording: Wording) -> str:
    """Return what was done to a part: "replaced"."""
    return wording.say(DONE.get(action) or plain(action or "repaired"))


def parts(used: Iterable[PartUsed], wording: Wording) -> str:
    """Return the parts that went in, with how many where not one."""
    return ", ".join(f"{wording.part(p.part)}{'' if p.qty == 1 else f' × {wording.number(p.qty)}'}" for p in used)


def checked(job: Job, entries: Iterable[Entry], wording: Wording) -> str:
    """Return who of the team checked and when; what is still to be checked says so."""
    looks = [entry for entry in entries if isinstance(entry.data, Inspection)]
    last = sorted(looks, key=lambda entry: entry.at)[-1:]
    said = [
        f"{wording.say('failed: ') if failed(e) else ''}{wording.person(e.person)} {wording.time(e.at)}" for e in last
    ]
    if job.to_inspect:
        said.append(wording.say("to be checked"))
    return ", ".join(said)


def officials_words(file: CarFile, wording: Wording) -> list[str]:
    """Return what officials decided, as somebody of the team typed it, by time."""
    found = []
    for entry in file.standing:
        if isinstance(entry.data, Inspection) and entry.data.official_said:
            whom = entry.data.shown_to or wording.say("an official")
            about = wording.job(entry.subject)
            words = "{when}, {about}: shown to {whom}, who said “{said}”"
            said = entry.data.official_said
            found.append(wording.say(words, when=wording.clock(entry.at), about=about, whom=whom, said=said))
    return found
