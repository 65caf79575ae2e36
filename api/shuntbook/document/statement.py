"""The statement for the customer: what he pays for, line by line, and how the sum comes about."""

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

from msgspec import to_builtins

from shuntbook.cost.says import WHY
from shuntbook.cost.statement_answer import (
    ChargedPart,
    Statement,
    StatementIncident,
    StatementLine,
    StatementNotCharged,
    StatementOther,
    Statements,
)
from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.document.drawing import car_drawing, steps_of
from shuntbook.document.heading import heading
from shuntbook.document.photo_index import photo_index
from shuntbook.document.shots import shot, shots_of_job
from shuntbook.document.wording import Wording
from shuntbook.kit.canonical import json_text
from shuntbook.kit.errors import NotFound
from shuntbook.kit.speech import ENGLISH, Speech
from shuntbook.kit.times import day_in, instant, is_plausible, minutes_says
from shuntbook.report.settling import Letter, Step
from shuntbook.setup.words import split_key

TOTALS = {
    "damage": "Damage, all together",
    "other": "Besides damage",
    "to_pay": "To pay, before tax",
    "tax": "Tax",
    "stated_before": "Stated before",
    "now": "This statement adds",
    "deposit": "Less deposit",
}
Line = StatementLine | StatementNotCharged
NOTICE = "The team's own calculation. What was signed, and the law, decide."


def statement(file: CarFile, statements: Statements, paper: str, asked: int | None = None) -> Json:
    """Return the data of the statement numbered `asked`; of the newest issued, else the draft, where none is asked.

    statements: {draft, issued} as the API answers. Errors: NotFound.
    """
    meant = statement_meant(file, statements, asked)
    file = spoken_as(file, meant)
    wording = Wording(file.setup)
    say = wording.say
    photos = _Photos(file, statements.draft, wording)
    left_out, inspected = _left_out(meant, say)
    return {
        **heading(file, DOCUMENTS["statement"], paper),
        "title": say("Statement {number}", number=f"{file.car}-{meant.number}"),
        "name": say("Statement Car {car}, no. {number}", car=file.car, number=meant.number),
        "attached": json_text(meant),
        "attached_as": f"statement-{file.car}-{meant.number}.json",
        "notice": say(NOTICE),
        "checked": "",
        "draft": meant.entry is None,
        "number": meant.number,
        "supplements": meant.supplements,
        "agreement": meant.agreement,
        "customer": meant.customer,
        "currency": meant.currency,
        "rates": meant.rates[:12],
        "issued": wording.clock(meant.issued_at) if meant.issued_at else "",
        "by": wording.person(meant.by) if meant.by else "",
        "letter": _letter(meant, file, say),
        "asks": meant.asks,
        "drawing": _drawing(meant, wording),
        "incidents": [_incident(n, one, photos, wording) for n, one in enumerate(meant.incidents, 1)],
        "other": [_other(n, one, say) for n, one in enumerate(meant.other, 1)],
        "not_charged": [{"number": name, "says": one.says, "why": one.why} for name, one in left_out],
        "inspected": inspected,
        "left_out_shots": photos.of(left_out),
        "steps": _steps(meant.steps, say),
        "totals": _totals(meant, say),
    }


def _drawing(meant: Statement, wording: Wording) -> Json | None:
    """Return the car with what is charged by place, before share, excess and cap; quarters of the most."""
    charged: dict[str, Decimal] = {}
    for line in (line for incident in meant.incidents for line in incident.lines):
        zone = split_key(line.job or "")[0]
        charged[zone] = charged.get(zone, Decimal(0)) + Decimal(line.amount)
    steps = steps_of(charged)
    return car_drawing(steps, wording.say("hatched: damage; denser is more"), wording) if steps else None


def spoken_as(file: CarFile, meant: Statement) -> CarFile:
    """Return a car's file in the language that a statement speaks: its papers are all in one."""
    return replace(file, setup=file.setup.spoken((meant.letter.language if meant.letter else "") or ENGLISH))


def _letter(meant: Statement, file: CarFile, say: Speech) -> Json:
    """Return who writes to whom, with the days in words; a draft, and what release 0.1.0 issued, has less of it."""
    letter = meant.letter or Letter()
    zone = file.setup.event.timezone
    at = instant(meant.issued_at) if meant.issued_at else None
    due = say.day(day_in(at, zone) + timedelta(days=letter.due_days)) if at and is_plausible(at) else ""
    return {
        **to_builtins(letter),
        "sender": letter.sender,
        "sender_lines": [one for one in (letter.sender_address, letter.contact) if one],
        "tax_number": letter.tax_number,
        "customer_lines": [one.strip() for one in re.split(r"[\n,]", letter.customer_address) if one.strip()],
        "hire": letter.hire,
        "terms": letter.terms,
        "bank": letter.bank,
        "due": due,
        "object": _object(letter, say),
        "no_tax_number": Decimal(meant.totals.tax) != 0 and meant.letter is not None and not letter.tax_number,
    }


def _object(letter: Letter, say: Speech) -> str:
    if not letter.object_to:
        return ""
    said = (
        "Write to {whom} within {days} days of this statement and name the line. What is not disputed is settled"
        " meanwhile."
    )
    return say(said, whom=letter.object_to, days=letter.object_days)


def _left_out(meant: Statement, say: Speech) -> tuple[list[tuple[str, StatementNotCharged]], str]:
    """Return what is not charged, numbered; what was only inspected is one sentence."""
    look = say(WHY["look"])
    looks = [one for one in meant.not_charged if one.why == look]
    others = [one for one in meant.not_charged if one.why != look]
    many = "1 part: inspection only, not charged." if len(looks) == 1 else "{n} parts: inspection only, not charged."
    said = say(many, n=len(looks)) if looks else ""
    return [(f"N{n}", one) for n, one in enumerate(others, 1)], said


def _totals(meant: Statement, say: Speech) -> list[Json]:
    """Return the sums in words; the last one never has a sign: it is to be paid, or comes back."""
    totals = meant.totals
    rows = [(say(says), getattr(totals, name)) for name, says in TOTALS.items()]
    says = say("Balance to pay" if Decimal(totals.rest) >= 0 else "Refund to you")
    if meant.supplements is None:
        rows = [(of, amount) for of, amount in rows if of != say(TOTALS["now"])]
    told = [
        {"says": of, "amount": say.amount(amount)} for of, amount in rows if amount is not None and Decimal(amount) != 0
    ]
    return [*told, {"says": says, "amount": say.amount(totals.rest.removeprefix("-"))}]


def _steps(steps: Sequence[Step], say: Speech) -> list[Json]:
    return [{"says": step.says, "amount": say.amount(step.amount)} for step in steps]


def _other(n: int, one: StatementOther, say: Speech) -> Json:
    qty = f"{say.number(one.qty)} {one.unit}".strip()
    tax = say(", {rate} tax", rate=say.percent(one.tax_percent)) if one.tax_percent else ""
    return {
        "number": f"B{n}",
        "says": one.says,
        "how": f"{qty} × {say.amount(one.price)}{tax}",
        "why": one.why,
        "amount": say.amount(one.amount),
    }


def statement_meant(file: CarFile, statements: Statements, asked: int | None) -> Statement:
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
        known = self.known.get(photo, shot(self.file, self.wording, photo))
        name = self.wording.say("Lines {n}" if len(numbers) > 1 else "Line {n}", n=", ".join(numbers))
        return {**known, "caption": f"{name}. {known['caption']}", "alt": f"{name}. {known['alt']}"}


def _incident(number_: int, incident: StatementIncident, photos: _Photos, wording: Wording) -> Json:
    say = wording.say
    place = ", ".join(
        filter(
            None,
            (
                incident.stage or "",
                "" if incident.km is None else f"km {say.number(incident.km)}",
                say("driver {name}", name=wording.person(incident.driver)) if incident.driver else "",
                say("reported at the time" if incident.reported_at_the_time else "not reported at the time"),
                say("others involved") if incident.others_involved else "",
            ),
        )
    )
    lines = [(f"{number_}.{n}", line) for n, line in enumerate(incident.lines, 1)]
    return {
        "number": number_,
        "title": incident.title or say("Not named"),
        "place": place,
        "lines": [_line(name, line, say) for name, line in lines],
        "shots": photos.of(lines),
        "steps": _steps(incident.steps, say),
        "to_pay": say.amount(incident.to_pay),
        "misuse": incident.misuse or "",
    }


def _line(name: str, line: StatementLine, say: Speech) -> Json:
    tag = line.tag
    return {
        "number": name,
        "says": line.says,
        "why": line.why,
        "charge": line.charge,
        "labour": say.amount(line.labour),
        "work": _work(line, say),
        "parts": [_part(part, say) for part in line.parts],
        "parts_cost": say.amount(line.parts_cost),
        "consumables": say.amount(line.consumables),
        "amount": say.amount(line.amount),
        "tag": tag_says(tag.tag, tag.shelf, say) if tag else "",
    }


def tag_says(tag: str, shelf: str, say: Speech) -> str:
    """Return where a broken part that was kept is found."""
    return say("Part kept: tag {tag}, shelf {shelf}" if shelf else "Part kept: tag {tag}", tag=tag, shelf=shelf)


def _work(line: StatementLine, say: Speech) -> str:
    pattern = "{time} of work" if line.repaired else "{time} of work, estimated: not repaired yet"
    return say(pattern, time=minutes_says(line.mechanic_minutes))


def _part(part: ChargedPart, say: Speech) -> str:
    qty = f"{say.number(part.qty)} × " if part.qty != 1 else ""
    cost = say.amount(part.unit_cost) if part.unit_cost else say("no cost known")
    said = say("{area}: {what}", area=f"{qty}{part.description or part.part}", what=cost)
    if part.used_percent is not None and float(part.used_percent) > 0:
        said += say(", less {percent} used", percent=say.percent(part.used_percent))
    if part.included and float(part.included) > 0:
        said += say(", {count} included in the hire", count=say.number(part.included))
    return said if part.charged == part.unit_cost else f"{said} = {say.amount(part.charged)}"
