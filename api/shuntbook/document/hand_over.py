"""The hand-over of the car: the walk as it was signed; at the return, out and return side by side.

The phone makes this paper, too (pwa/src/paper): the same parts in the same order, and the same terms above them;
schemas/vectors/walk_paper.json holds both to it. No official signs it, and none has a box on it.
"""

from collections.abc import Callable, Iterable

from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.document.heading import heading
from shuntbook.document.reports import body_of, standing_reports
from shuntbook.document.shots import by_whom, once, shot, shots_of_report
from shuntbook.document.signatures import signature_says
from shuntbook.document.wording import Wording, sentence, short
from shuntbook.kit.errors import NotFound
from shuntbook.report.entry import Entry
from shuntbook.report.settling import HandoverSigned, ReadAt, Signature

Walk = tuple[Entry, HandoverSigned]
TERMS = {
    "out": "Handed over like this. What is recorded here was there before, and is not charged.",
    "return": "Returned like this. Damage hidden under dirt, or found when the car is taken apart within the time of"
    " the agreement, is reserved.",
}
"""What is signed, by the walk."""
RECORD = "This is the record of both sides. The agreement comes first where the two differ."


def hand_over(file: CarFile, paper: str) -> Json:
    """Return the data of the hand-over. Errors: NotFound where nobody signed one, or for the paper."""
    wording = Wording(file.setup)
    walks = [walk for walk in (_walk(file, "out"), _walk(file, "return")) if walk]
    if not walks:
        raise NotFound(f"no hand-over of car {file.car} was signed; walk round it in the app first (Hand-over walk)")
    marks = [_marks(file, walk, wording) for walk in walks]
    return {
        **heading(file, DOCUMENTS["hand-over"], paper),
        "agreement": next((data.agreement for _, data in walks if data.agreement), "") or "",
        "walks": [_head(walk, wording) for walk in walks],
        "terms": [wording.say(TERMS[walks[-1][1].walk]), wording.say(RECORD)],
        "figures": _figures([data for _, data in walks], wording),
        "fluids": _by_name(
            [data for _, data in walks],
            lambda w: {sentence(wording.plain(f.fluid)): wording.say(f.level) for f in w.fluids},
        ),
        "kit": _kit([data for _, data in walks], wording),
        "marks": [[_mark(entry, wording) for entry in some] for some in marks],
        "signed": [[_signed(file, one, wording) for one in data.signed] for _, data in walks],
        "views": _views(file, walks, wording),
        "mark_shots": [once(one for entry in some for one in shots_of_report(file, entry, wording)) for some in marks],
    }


def _walk(file: CarFile, which: str) -> Walk | None:
    """Return the newest walk of its kind that no other replaces."""
    found = [(entry, data) for entry, data in file.of(HandoverSigned) if data.walk == which]
    # As with incidents, only an older one is taken over: of a ring something is left.
    replaced = {name for entry, data in found for name in data.replaces if name < entry.id}
    stand = [walk for walk in found if walk[0].id not in replaced]
    return stand[-1] if stand else None


def _head(walk: Walk, wording: Wording) -> Json:
    entry, data = walk
    return {
        "walk": wording.say("Out" if data.walk == "out" else "Return"),
        "when": wording.clock(entry.at),
        "by": wording.person(entry.person),
        "note": short(data.note, 300),
    }


def _figures(walks: list[HandoverSigned], wording: Wording) -> list[list[str]]:
    """Return rows of name and one cell a walk: odometer, fuel, tread, pads."""
    say = wording.say
    rows = [
        [say("Odometer, km"), *("" if w.odometer_km is None else say.amount(str(w.odometer_km)) for w in walks)],
        [say("Fuel, %"), *("" if w.fuel_percent is None else str(w.fuel_percent) for w in walks)],
    ]

    def read(label: str, readings: Iterable[ReadAt]) -> dict[str, str]:
        return {say(label, place=wording.plain(one.place)): wording.number(one.mm) for one in readings}

    rows += _by_name(walks, lambda w: read("Tread {place}, mm", w.tread))
    return rows + _by_name(walks, lambda w: read("Pad {place}, mm", w.pads))


def _kit(walks: list[HandoverSigned], wording: Wording) -> list[list[str]]:
    words = {True: wording.say("aboard"), False: wording.say("not aboard")}
    return _by_name(walks, lambda w: {wording.plain(item.item): words[item.aboard] for item in w.kit})


def _by_name(walks: list[HandoverSigned], cells: Callable[[HandoverSigned], dict[str, str]]) -> list[list[str]]:
    each = [cells(walk) for walk in walks]
    names = dict.fromkeys(name for some in each for name in some)
    return [[name, *(some.get(name, "") for some in each)] for name in names]


def _marks(file: CarFile, walk: Walk, wording: Wording) -> list[Entry]:
    """Return the reports of the walk by zone, in the order of the car map."""
    zones = list(file.setup.car_map.zones)
    named = [entry for entry in standing_reports(file) if entry.subject in walk[1].marks]

    def place(entry: Entry) -> int:
        zone = body_of(entry).zone
        return zones.index(zone) if zone in zones else len(zones)

    return sorted(named, key=place)


def _mark(entry: Entry, wording: Wording) -> str:
    body = body_of(entry)
    return short(f"{wording.found(body)}{f' ({body.note})' if body.note else ''}", 120)


def _signed(file: CarFile, signature: Signature, wording: Wording) -> Json:
    photo = signature.photo
    picture = (
        {**shot(file, wording, photo, wording.say("Signature of {name}", name=signature.name)), "grey": True}
        if photo
        else None
    )
    return {"says": signature_says(signature, wording.say), "picture": picture}


def _views(file: CarFile, walks: list[Walk], wording: Wording) -> list[Json]:
    """Return the fixed views, each with the photo of every walk, or why there is none."""
    each = [{photo.view: photo for photo in data.photos} for _, data in walks]
    names: Iterable[str] = dict.fromkeys(view for some in each for view in some)
    found = []
    for name in names:
        cells: list[Json] = []
        for (entry, data), some in zip(walks, each, strict=True):
            photo = some.get(name)
            if photo and photo.photo:
                walk = wording.say("Out" if data.walk == "out" else "Return").lower()
                view = f"{sentence(wording.plain(name))}, {walk}"
                cells.append(shot(file, wording, photo.photo, view, by_whom(entry, wording)))
            else:
                cells.append({"why_none": (photo.why_none if photo else None) or wording.say("no reason given")})
        found.append({"view": sentence(wording.plain(name)), "shots": cells})
    return found
