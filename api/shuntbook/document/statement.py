"""The statement for the customer: what he pays for, line by line, and how the sum comes about."""

from collections.abc import Sequence

from msgspec import to_builtins

from shuntbook.cost.statement_answer import (
    ChargedPart,
    Statement,
    StatementIncident,
    StatementLine,
    StatementNotCharged,
    Statements,
)
from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.document.heading import heading
from shuntbook.document.photo_index import photo_index
from shuntbook.document.shots import shot, shots_of_job
from shuntbook.document.wording import Wording, number
from shuntbook.kit.errors import NotFound

TOTALS = {
    "damage": "Damage, all together",
    "to_pay": "To pay, before tax",
    "tax": "Tax",
    "stated_before": "Stated before",
    "now": "Now",
    "deposit": "Deposit",
    "rest": "Rest",
}
Line = StatementLine | StatementNotCharged


def statement(file: CarFile, statements: Statements, paper: str, asked: int | None = None) -> Json:
    """Return the data of the statement numbered `asked`; of the newest issued, else the draft, where none is asked.

    statements: {draft, issued} as the API answers. Errors: NotFound.
    """
    wording = Wording(file.setup)
    meant = _meant(file, statements, asked)
    photos = _Photos(file, statements.draft, wording)
    left_out = [(f"N{n}", one) for n, one in enumerate(meant.not_charged, 1)]
    return {
        **heading(file, DOCUMENTS["statement"], paper),
        "draft": meant.entry is None,
        "number": meant.number,
        "supplements": meant.supplements,
        "agreement": meant.agreement,
        "customer": meant.customer,
        "currency": meant.currency,
        "rates": meant.rates[:12],
        "issued": wording.clock(meant.issued_at) if meant.issued_at else "",
        "by": wording.person(meant.by) if meant.by else "",
        "incidents": [_incident(n, one, photos, wording) for n, one in enumerate(meant.incidents, 1)],
        "not_charged": [{"number": name, "says": one.says, "why": one.why} for name, one in left_out],
        "left_out_shots": photos.of(left_out),
        "steps": to_builtins(meant.steps),
        "totals": [{"says": says, "amount": getattr(meant.totals, name)} for name, says in TOTALS.items()],
    }


def _meant(file: CarFile, statements: Statements, asked: int | None) -> Statement:
    """Return the statement that is asked for; the draft has the number that it would be issued under."""
    drafted = [statements.draft] if statements.draft else []
    by_number: dict[int, Statement] = {one.number: one for one in [*drafted, *statements.issued]}
    if not by_number:
        raise NotFound(f"there is no statement of car {file.car}: no agreement names that car in event.toml")
    newest = max((one.number for one in statements.issued), default=max(by_number))
    wanted = newest if asked is None else asked
    if wanted not in by_number:
        raise NotFound(
            f"there is no statement {wanted} of car {file.car}; there are {', '.join(map(str, sorted(by_number)))}"
        )
    return by_number[wanted]


class _Photos:
    """The photos of a line: at the hand-over, of the hit, of the work. An issued statement names none of them itself,
    so its lines show those that stand behind the same line of the draft."""

    def __init__(self, file: CarFile, drafted: Statement | None, wording: Wording) -> None:
        self.file, self.wording = file, wording
        self.known = photo_index(file, wording)
        lines: list[Line] = [line for one in drafted.incidents for line in one.lines] if drafted else []
        lines += drafted.not_charged if drafted else []
        self.behind = {line.line: line for line in lines}

    def of(self, lines: Sequence[tuple[str, Line]]) -> list[Json]:
        """Return the photos of some lines, each once, captioned with the numbers of the lines that it shows."""
        numbers: dict[str, list[str]] = {}
        for number_, line in lines:
            for photo in self._named(line):
                numbers.setdefault(photo, []).append(number_)
        return [self._shot(photo, names) for photo, names in numbers.items()]

    def _named(self, line: Line) -> dict[str, None]:
        behind = self.behind.get(line.line, line)
        work = [one["photo"] for one in shots_of_job(self.file, line.job or "", self.wording)]
        before = behind.photos_before if isinstance(behind, StatementLine) else []
        return dict.fromkeys([*before, *behind.photos, *work])

    def _shot(self, photo: str, numbers: list[str]) -> Json:
        known = self.known.get(photo, shot(self.file, photo, "Photo"))
        name = f"Line{'s' if len(numbers) > 1 else ''} {', '.join(numbers)}"
        return {**known, "caption": f"{name}. {known['caption']}", "alt": f"{name}. {known['alt']}"}


def _incident(number_: int, incident: StatementIncident, photos: _Photos, wording: Wording) -> Json:
    place = ", ".join(
        filter(
            None,
            (
                incident.stage or "",
                "" if incident.km is None else f"km {number(incident.km)}",
                f"driver {wording.person(incident.driver)}" if incident.driver else "",
                "reported at the time" if incident.reported_at_the_time else "not reported at the time",
                "others involved" if incident.others_involved else "",
            ),
        )
    )
    lines = [(f"{number_}.{n}", line) for n, line in enumerate(incident.lines, 1)]
    return {
        "number": number_,
        "title": incident.title or "Not named",
        "place": place,
        "lines": [_line(name, line) for name, line in lines],
        "shots": photos.of(lines),
        "steps": to_builtins(incident.steps),
        "to_pay": incident.to_pay,
    }


def _line(name: str, line: StatementLine) -> Json:
    tag = line.tag
    return {
        "number": name,
        "says": line.says,
        "labour": line.labour,
        "work": _work(line),
        "parts": [_part(part) for part in line.parts],
        "parts_cost": line.parts_cost,
        "consumables": line.consumables,
        "amount": line.amount,
        "standing": line.standing or "",
        "tag": f"Part kept: tag {tag.tag}{', shelf ' + tag.shelf if tag.shelf else ''}" if tag else "",
    }


def _work(line: StatementLine) -> str:
    took = f"{number(line.mechanic_minutes)} mechanic-minutes"
    return took if line.repaired else f"{took}, estimated: not repaired yet"


def _part(part: ChargedPart) -> str:
    qty = f"{number(part.qty)} × " if part.qty != 1 else ""
    said = f"{qty}{part.description or part.part}: {part.unit_cost or 'no cost known'}"
    if part.used_percent is not None and float(part.used_percent) > 0:
        said += f", less {number(part.used_percent)} % used"
    if part.included and float(part.included) > 0:
        said += f", {number(part.included)} included in the hire"
    return said if part.charged == part.unit_cost else f"{said} = {part.charged}"
