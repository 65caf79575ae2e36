"""An entry of each kind that there is, with no more than it needs."""

from making import Json, Pen
from shuntbook.report.kinds import KINDS

DIGEST = "0" * 64
SUMS = ("damage", "to_pay", "tax", "stated_before", "now", "deposit", "rest")
CONTENT = {"customer": "Lena", "currency": "EUR", "rates": DIGEST, "totals": dict.fromkeys(SUMS, "0.00")}
SUBJECTS = {"job.": "front-left/wheel", "inspection.": "front-left/wheel", "part.fitted": "front-left/wheel"}
NEEDED: dict[str, Json] = {
    "report.amended": {"replaces": []},
    "report.withdrawn": {"replaces": []},
    "stage.nothing_seen": {"stage": "SS1"},
    "service.entered": {"service": "A"},
    "service.left": {"service": "A"},
    "driver.changed": {"driver": "p-toma"},
    "control.entered": {"control": "parc-ferme"},
    "control.left": {"ends": []},
    "driver.asked": {"answers": []},
    "reading.taken": {"reading": "oil", "value": 1},
    "incident.grouped": {"reports": []},
    "photo.linked": {"photo": DIGEST},
    "voice.linked": {"voice": DIGEST},
    "car.released": {"service": "A"},
    "task.started": {"service": "A"},
    "task.finished": {"service": "A"},
    "briefing.acknowledged": {"service": "A"},
    "cost.adjusted": {"line": "front-left/wheel", "amount": "1.00"},
    "handover.signed": {"walk": "out"},
    "charge.decided": {"charge": "wear"},
    "charge.added": {"charge": "fuel", "says": "Fuel", "price": "2.10"},
    "part.fitted": {"serial": "D-7"},
    "part.retained": {"tag": "R-7"},
    "statement.issued": {"number": 1, "agreement": "hire", "content": CONTENT},
    "statement.line_settled": {"line": "front-left/wheel", "standing": "agreed"},
    "entry.voided": {"voids": []},
}


def one_of_each(pen: Pen, **more: str) -> list[Json]:
    """Return an entry of each kind. more: of which car or person."""
    entries = []
    for kind in KINDS:
        subject = next((s for start, s in SUBJECTS.items() if kind.startswith(start)), None)
        entry = pen.entry(kind, subject, **more, **NEEDED.get(kind, {}))
        if kind.startswith("report."):
            entry["subject"] = entry["id"]
        entries.append(entry)
    return entries
