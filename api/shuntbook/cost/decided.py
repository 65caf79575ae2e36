"""What managers decided about cost lines, and what became of the lines of statements."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from shuntbook.report.entry import Entry
from shuntbook.report.settling import ChargeDecided, Charging, LineSettled, Standing, StatementIssued
from shuntbook.setup.event import Event

MILDEST_FIRST = ("not-charged", "wear", "damage", "misuse")
WORST_FIRST = ("disputed", "withdrawn", "agreed")


@dataclass(frozen=True)
class Issued:
    """A statement that a manager issued, with what became of its lines (line → agreed, disputed, withdrawn)."""

    entry: Entry
    data: StatementIssued
    standing: dict[str, Standing]
    reasons: dict[str, str]


@dataclass(frozen=True)
class Decision:
    """What managers said of a line: what it is (None: nobody did), why, and how far parts were used, in percent."""

    charge: Charging | None = None
    reason: str = ""
    used: Mapping[str, Decimal] = field(default_factory=dict)
    incident: str | None = None


def decisions(entries: Iterable[Entry], event: Event) -> dict[str, Decision]:
    """Return each line's decision by managers; of several that nobody settled, the mildest for the customer."""
    said: dict[str, list[ChargeDecided]] = {}
    mine = [entry for entry in entries if entry.kind == "charge.decided" and event.has_role(entry.person, "manager")]
    for entry in _unreplaced(mine):
        if isinstance(entry.data, ChargeDecided):
            said.setdefault(entry.subject, []).append(entry.data)
    return {line: _mildest(of_line) for line, of_line in said.items()}


def _mildest(said: Sequence[ChargeDecided]) -> Decision:
    """Return the mildest charge of those that say one, and the most that it or one without a charge says was used."""
    charging = [one for one in said if one.charge is not None]
    chosen = min(charging, key=_mildness, default=ChargeDecided())
    used: dict[str, Decimal] = {}
    for one in said:
        for worn in one.worn if one.charge in (None, chosen.charge) else ():
            used[worn.part] = max(worn.used_percent, used.get(worn.part, worn.used_percent))
    return Decision(chosen.charge, chosen.reason, used, chosen.incident)


def issued(entries: Iterable[Entry], event: Event) -> list[Issued]:
    """Return the statements that managers issued, by number."""
    by_manager = [entry for entry in entries if event.has_role(entry.person, "manager")]
    settled = [entry for entry in by_manager if isinstance(entry.data, LineSettled)]
    found = []
    for entry in by_manager:
        if isinstance(entry.data, StatementIssued):
            of_this = _unreplaced([one for one in settled if one.subject == entry.id])
            found.append(Issued(entry, entry.data, *_standing(of_this)))
    return sorted(found, key=lambda one: (one.data.number, one.entry.id))


def withdrawn(statements: Sequence[Issued]) -> dict[str, str]:
    """Return the lines that are withdrawn in the last statement that has them, with the reason."""
    last: dict[str, Issued] = {}
    for statement in statements:
        for incident in statement.data.content.incidents:
            last.update({line.line: statement for line in incident.lines})
        last.update({one.line: statement for one in statement.data.content.other})
    return {
        line: statement.reasons.get(line, "")
        for line, statement in last.items()
        if statement.standing.get(line) == "withdrawn"
    }


def _standing(settled: Iterable[Entry]) -> tuple[dict[str, Standing], dict[str, str]]:
    standing: dict[str, Standing] = {}
    reasons: dict[str, str] = {}
    for entry in settled:
        if isinstance(entry.data, LineSettled):
            known = standing.get(entry.data.line)
            if known is None or WORST_FIRST.index(entry.data.standing) < WORST_FIRST.index(known):
                standing[entry.data.line] = entry.data.standing
                reasons[entry.data.line] = entry.data.reason
    return standing, reasons


def _unreplaced(entries: Sequence[Entry]) -> list[Entry]:
    """Return the entries that no other of them takes over, by id. Only an older one is taken over (ids ascend)."""
    gone = {
        old
        for entry in entries
        if isinstance(entry.data, ChargeDecided | LineSettled)
        for old in entry.data.replaces
        if old < entry.id
    }
    return sorted((entry for entry in entries if entry.id not in gone), key=lambda entry: entry.id)


def _mildness(data: ChargeDecided) -> int:
    return MILDEST_FIRST.index(str(data.charge))
