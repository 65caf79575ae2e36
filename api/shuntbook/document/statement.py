"""The statement for the customer: what he pays for, line by line, and how the sum comes about."""

from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.document.heading import heading
from shuntbook.document.photo_index import photo_index
from shuntbook.document.wording import Wording, number
from shuntbook.kit.errors import NotFound


def statement(file: CarFile, statements: Json, paper: str, asked: int | None = None) -> Json:
    """Return the data of the statement numbered `asked`, else of the newest issued, else of the draft.

    statements: {draft, issued} as the API answers. Errors: NotFound.
    """
    wording = Wording(file.setup)
    meant = _meant(file, statements, asked)
    photos = photo_index(file, wording)
    return {
        **heading(file, DOCUMENTS["statement"], paper),
        "draft": meant["entry"] is None,
        "number": meant["number"],
        "supplements": meant["supplements"],
        "agreement": meant["agreement"],
        "customer": meant["customer"],
        "currency": meant["currency"],
        "rates": meant["rates"][:12],
        "issued": wording.clock(meant["issued_at"]) if meant["issued_at"] else "",
        "by": wording.person(meant["by"]) if meant["by"] else "",
        "incidents": [_incident(n, one, photos, file, wording) for n, one in enumerate(meant["incidents"], 1)],
        "not_charged": [_left_out(one, photos, file) for one in meant["not_charged"]],
        "steps": meant["steps"],
        "totals": meant["totals"],
    }


def _meant(file: CarFile, statements: Json, asked: int | None) -> Json:
    issued: dict[int, Json] = {one["number"]: one for one in statements["issued"]}
    if asked is not None and asked not in issued:
        there = f"; there are {', '.join(map(str, issued))}" if issued else ", none was issued yet"
        raise NotFound(f"there is no statement {asked} of car {file.car}{there}")
    found = issued[asked] if asked is not None else statements["draft"] or None
    if asked is None and issued:
        found = issued[max(issued)]
    if found is None:
        raise NotFound(f"there is no statement of car {file.car}: no agreement names that car in event.toml")
    return found


def _incident(number_: int, incident: Json, photos: dict[str, Json], file: CarFile, wording: Wording) -> Json:
    place = ", ".join(
        filter(
            None,
            (
                incident["stage"] or "",
                "" if incident["km"] is None else f"km {number(incident['km'])}",
                f"driver {wording.person(incident['driver'])}" if incident["driver"] else "",
                "reported at the time" if incident["reported_at_the_time"] else "not reported at the time",
                "others involved" if incident["others_involved"] else "",
            ),
        )
    )
    lines = [_line(f"{number_}.{n}", line, photos, file) for n, line in enumerate(incident["lines"], 1)]
    return {
        "number": number_,
        "title": incident["title"] or "Not named",
        "place": place,
        "lines": lines,
        "steps": incident["steps"],
        "to_pay": incident["to_pay"],
    }


def _line(name: str, line: Json, photos: dict[str, Json], file: CarFile) -> Json:
    tag = line["tag"]
    return {
        "number": name,
        "says": line["says"],
        "labour": line["labour"],
        "work": _work(line),
        "parts": [_part(part) for part in line["parts"]],
        "parts_cost": line["parts_cost"],
        "consumables": line["consumables"],
        "amount": line["amount"],
        "standing": line["standing"] or "",
        "tag": f"Part kept: tag {tag['tag']}{', shelf ' + tag['shelf'] if tag['shelf'] else ''}" if tag else "",
        "shots": [_shot(photo, f"Line {name}", photos, file) for photo in line["photos"]],
    }


def _work(line: Json) -> str:
    took = f"{number(line['mechanic_minutes'])} mechanic-minutes"
    return took if line["repaired"] else f"{took}, estimated: not repaired yet"


def _part(part: Json) -> str:
    qty = f"{number(part['qty'])} × " if part["qty"] != 1 else ""
    said = f"{qty}{part['description'] or part['part']}: {part['unit_cost'] or 'no cost known'}"
    if part["used_percent"] is not None and float(part["used_percent"]) > 0:
        said += f", less {number(part['used_percent'])} % used"
    if part["included"] and float(part["included"]) > 0:
        said += f", {number(part['included'])} included in the hire"
    return f"{said} = {part['charged']}"


def _left_out(one: Json, photos: dict[str, Json], file: CarFile) -> Json:
    return {
        "says": one["says"],
        "why": one["why"],
        "shots": [_shot(photo, "Not charged", photos, file) for photo in one["photos"]],
    }


def _shot(photo: str, name: str, photos: dict[str, Json], file: CarFile) -> Json:
    known = photos.get(photo, {"photo": photo, "held": photo in file.photos, "caption": "Photo", "alt": "Photo"})
    return {**known, "caption": f"{name}. {known['caption']}", "alt": f"{name}. {known['alt']}"}
