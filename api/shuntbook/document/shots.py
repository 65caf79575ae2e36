"""Photos for paper: which belong to what, each with a caption of what, where, when and who."""

from collections.abc import Iterable, Iterator

from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.wording import Wording, short
from shuntbook.report.body import Body
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import PhotoLinked


def shot(file: CarFile, wording: Wording, photo: str, *words: str) -> Json:
    """Return a photo with its caption, which is its text alternative, too; `held` False: still on a phone."""
    caption = ". ".join(filter(None, (short(word, 160) for word in words))) or wording.say("Photo")
    return {"photo": photo, "held": photo in file.photos, "caption": caption, "alt": wording.noted("Photo", caption)}


def shots_of_report(file: CarFile, entry: Entry, wording: Wording) -> list[Json]:
    """Return the photos of one version of a report, and those linked to its report, each once."""
    if not isinstance(entry.data, Body):
        return []
    body = entry.data
    about = (wording.found(body), wording.place(body), by_whom(entry, wording))
    captions = dict.fromkeys(body.photos, about)
    for link, data in linked(file, entry.subject):
        words = (data.caption or wording.found(body), wording.place(body), by_whom(link, wording))
        captions[data.photo] = words
    return [shot(file, wording, photo, *words) for photo, words in captions.items()]


def shots_of_job(file: CarFile, job: str, wording: Wording) -> list[Json]:
    """Return the photos that were linked to a job itself: those of the work."""
    return [
        shot(file, wording, data.photo, data.caption or wording.job(job), by_whom(entry, wording))
        for entry, data in linked(file, job)
    ]


def linked(file: CarFile, subject: str) -> list[tuple[Entry, PhotoLinked]]:
    """Return the photos that somebody linked to a report or job."""
    return [(entry, data) for entry, data in file.of(PhotoLinked) if entry.subject == subject]


def by_whom(entry: Entry, wording: Wording) -> str:
    """Return "Toma, Sat 13 Jun, 10:42"."""
    return f"{wording.person(entry.person)}, {wording.clock(entry.at)}"


def once(shots: Iterable[Json]) -> list[Json]:
    """Return each photo once, as it came first."""
    return list({one["photo"]: one for one in reversed(list(shots))}.values())[::-1]


def is_whole(data: Json) -> bool:
    """Return whether every photo that a document's data shows is held: none of them may still come in."""
    shots = [one for one in _objects(data) if "photo" in one and "held" in one]
    return all(one["held"] for one in shots)


def named_in(data: Json) -> dict[str, bool]:
    """Return the photos that a document's data shows, each with whether it loses its colour."""
    shown = [one for one in _objects(data) if one.get("held")]
    return {str(one["photo"]): bool(data.get("grey") or one.get("grey")) for one in shown}


def _objects(data: Json) -> Iterator[Json]:
    todo: list[object] = [data]
    while todo:
        value = todo.pop()
        if isinstance(value, dict):
            yield value
            todo += value.values()
        elif isinstance(value, list):
            todo += value
