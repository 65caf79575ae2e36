"""The annex of an issued statement: what became of each of its lines. The statement itself stays as it was printed."""

from collections.abc import Sequence
from decimal import Decimal

from shuntbook.cost.decided import Issued, issued
from shuntbook.cost.says import said_because
from shuntbook.cost.statement_answer import StatementLine, StatementOther, Statements
from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.document.heading import heading
from shuntbook.document.statement import NOTICE, spoken_as, statement_meant
from shuntbook.document.wording import Wording
from shuntbook.kit.errors import NotFound
from shuntbook.kit.speech import Speech
from shuntbook.report.settling import LineSettled

NOTHING_SAID = "not answered"
STANDINGS = ("agreed", "disputed", "withdrawn", NOTHING_SAID)
Line = StatementLine | StatementOther


def statement_answers(file: CarFile, statements: Statements, paper: str, asked: int | None = None) -> Json:
    """Return the data of the annex of a statement that was issued. Errors: NotFound, for a draft, too."""
    meant = statement_meant(file, statements, asked)
    if meant.entry is None:
        raise NotFound(f"statement {meant.number} of car {file.car} is a draft: nobody has answered it. Issue it first")
    this = next(one for one in issued(file.log.entries, file.setup.event) if one.entry.id == meant.entry)
    lines: list[Line] = [line for incident in meant.incidents for line in incident.lines]
    lines += meant.other
    file = spoken_as(file, meant)
    wording = Wording(file.setup)
    say = wording.say
    return {
        **heading(file, DOCUMENTS["statement"], paper),
        "template": "statement-answers",
        "title": say("Answers to statement {number}", number=f"{file.car}-{meant.number}"),
        "notice": say(NOTICE),
        "checked": "",
        "customer": meant.customer,
        "currency": meant.currency,
        "lines": [_line(line, this, file, wording) for line in lines],
        "sums": _sums(lines, say),
    }


def _line(line: Line, this: Issued, file: CarFile, wording: Wording) -> Json:
    said = [
        said_because(
            f"{wording.say(data.standing)}, {wording.clock(entry.at)}, {wording.person(entry.person)}",
            data.reason,
            wording.say,
        )
        for entry, data in file.of(LineSettled)
        if entry.subject == this.entry.id and data.line == line.line
    ]
    return {
        "says": line.says,
        "amount": wording.say.amount(line.amount),
        "standing": wording.say(line.standing or NOTHING_SAID),
        "said": said,
    }


def _sums(lines: Sequence[Line], say: Speech) -> list[Json]:
    """Return what the lines of each standing come to, before share, excess, cap and tax."""
    of = {
        name: [Decimal(line.amount) for line in lines if (line.standing or NOTHING_SAID) == name] for name in STANDINGS
    }
    return [{"says": say(name), "amount": say.amount(str(sum(amounts)))} for name, amounts in of.items() if amounts]
