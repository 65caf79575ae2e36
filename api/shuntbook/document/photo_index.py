"""Every photo of a car's log with its caption: before the hire and of damage from reports, of the work from jobs."""

from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.shots import shots_of_job, shots_of_report
from shuntbook.document.wording import Wording
from shuntbook.report.body import Body


def photo_index(file: CarFile, wording: Wording) -> dict[str, Json]:
    """Return photo → its shot; where several say something of one, the newest has the word."""
    found: dict[str, Json] = {}
    for entry in file.standing:
        if isinstance(entry.data, Body):
            when = wording.say("Before the hire" if entry.data.where == "hand-over" else "Damage")
            found |= {one["photo"]: _said(when, one, wording) for one in shots_of_report(file, entry, wording)}
    for job in file.log.acts:
        found |= {one["photo"]: _said(wording.say("Work"), one, wording) for one in shots_of_job(file, job, wording)}
    return found


def _said(word: str, shot: Json, wording: Wording) -> Json:
    return {**shot, "caption": wording.at(word, shot["caption"])}
