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
from shuntbook.document.wording import Wording, number, plain, short
from shuntbook.kit.errors import NotFound
from shuntbook.report.entry import Entry
from shuntbook.report.settling import HandoverSigned, Signature

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
        "terms": [TERMS[walks[-1][1].walk], RECORD],
        "figures": _figures([data for _, data in walks]),
        "fluids": _by_name(
            [data for _, data in walks], lambda w: {plain(f.fluid).capitalize(): f.level for f in w.fluids}
        ),
        "kit": _kit([data for _, data in walks]),
        "marks": [[_mark(entry, wording) for entry in some] for some in marks],
        "signed": [[_signed(file, one) for one in data.signed] for _, data in walks],
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
        "walk": "Out" if data.walk == "out" else "Return",
        "when": wording.clock(entry.at),
        "by": wording.person(entry.person),
        "note": short(data.note, 300),
    }


def _figures(walks: list[HandoverSigned]) -> list[list[str]]:
    """Return rows of name and one cell a walk: odometer, fuel, tread, pads."""
    rows = [
        ["Odometer, km", *("" if w.odometer_km is None else number(w.odometer_km) for w in walks)],
        ["Fuel, %", *("" if w.fuel_percent is None else str(w.fuel_percent) for w in walks)],
    ]
    rows += _by_name(walks, lambda w: {f"Tread {plain(r.place)}, mm": number(r.mm) for r in w.tread})
    return rows + _by_name(walks, lambda w: {f"Pad {plain(r.place)}, mm": number(r.mm) for r in w.pads})


def _kit(walks: list[HandoverSigned]) -> list[list[str]]:
    return _by_name(walks, lambda w: {plain(item.item): "aboard" if item.aboard else "not aboard" for item in w.kit})


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


def _signed(file: CarFile, signature: Signature) -> Json:
    photo = signature.photo
    picture = {**shot(file, photo, f"Signature of {signature.name}"), "grey": True} if photo else None
    return {"says": signature_says(signature), "picture": picture}


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
                cells.append(
                    shot(file, photo.photo, f"{plain(name).capitalize()}, {data.walk}", by_whom(entry, wording))
                )
            else:
                cells.append({"why_none": (photo.why_none if photo else None) or "no photo"})
        found.append({"view": plain(name).capitalize(), "shots": cells})
    return found
