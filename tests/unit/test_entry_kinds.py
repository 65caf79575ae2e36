"""Each kind of entry: its fields come through as they were written, null and absent are the same."""

from decimal import Decimal
from typing import Any

import pytest

from making import Pen, parsed, raw
from shuntbook.report.entry import parse_entry
from shuntbook.report.kinds import KINDS, Body

PEN = Pen("small-2026")
REPORT = "0197a000-0000-7000-8000-000000000001"
JOB = "front-left/wheel"
PHOTO = "ab" * 32
BODY = {
    "stage": "SS1", "km": 3.25, "where": "stage", "zone": "front-left", "direction": 12, "cause": "stone",
    "caused_by": REPORT, "findings": [{"component": "wheel", "condition": "bent"}], "symptoms": ["pulls"],
    "drives": "poorly", "photos": [PHOTO], "note": "Heckklappe – große Beule",
}  # fmt: skip
STEP = {"step": "together", "says": "Together", "amount": "718.55"}
CONTENT = {
    "customer": "Lena",
    "currency": "EUR",
    "rates": PHOTO,
    "incidents": [
        {
            "incident": REPORT,
            "title": "The bank",
            "stage": "SS1",
            "km": 6.1,
            "driver": "p-rens",
            "reported_at_the_time": True,
            "others_involved": False,
            "reports": [REPORT],
            "lines": [
                {
                    "line": JOB,
                    "charge": "misuse",
                    "job": JOB,
                    "says": "Replace wheel",
                    "action": "replace",
                    "condition": "bent",
                    "service": "A",
                    "mechanic_minutes": 7.5,
                    "repaired": True,
                    "labour": "1.00",
                    "parts_cost": "108.00",
                    "parts": [
                        {
                            "part": "tyre",
                            "description": "Tyre",
                            "qty": 1,
                            "unit_cost": "180.00",
                            "used_percent": 40,
                            "included": 0,
                            "charged": "108.00",
                        }
                    ],
                    "consumables": "0.00",
                    "amount": "109.00",
                    "why": "Bank, reported Sat 13 Jun, 10:42 by Lena (clause 4)",
                }
            ],
            "steps": [STEP],
            "to_pay": "0.00",
            "misuse": "109.00",
        }
    ],
    "other": [
        {
            "line": "other/41/fuel",
            "kind": "fuel",
            "says": "Fuel",
            "qty": 32,
            "unit": "l",
            "price": "2.10",
            "amount": "67.20",
            "tax_percent": 19,
            "why": "three quarters out, one quarter back",
        }
    ],
    "not_charged": [{"line": JOB, "job": JOB, "says": "Replace mud flap", "why": "wear"}],
    "steps": [STEP],
    "letter": {
        "sender": "Quarry Lane",
        "sender_address": "4 Quarry Lane",
        "contact": "office@example.org",
        "tax_number": "00-000",
        "customer_address": "11 Mill Row",
        "hire": ["Car 41"],
        "terms": ["Wear is not charged."],
        "bank": "Thornquell Savings",
        "object_to": "office@example.org",
        "due_days": 30,
        "object_days": 10,
        "language": "fr",
    },
    "totals": dict.fromkeys(
        ("damage", "to_pay", "tax", "stated_before", "now", "deposit", "rest", "misuse", "other"), "0.00"
    ),
}
# Data of each kind with every field of the rules filled in.
FULL: dict[str, tuple[str | None, dict[str, Any]]] = {
    "report.filed": (None, BODY),
    "report.amended": (REPORT, {**BODY, "replaces": [REPORT], "direction": "below"}),
    "report.withdrawn": (REPORT, {"replaces": [REPORT], "reason": "wrong car"}),
    "stage.nothing_seen": (None, {"stage": "SS1", "how": "walked-round"}),
    "service.entered": (None, {"service": "A", "official_time": "13:02"}),
    "service.left": (None, {"service": "A", "official_time": "13:32"}),
    "driver.changed": (None, {"driver": "p-rens"}),
    "control.entered": (None, {"control": "regroup", "official_time": "09:10"}),
    "control.left": (None, {"ends": [REPORT], "official_time": "09:30"}),
    "driver.asked": (None, {"answers": [{"question": "pedal", "as_before": False}], "service": "A"}),
    "car.retired": (
        None,
        {
            "stage": "SS1",
            "ready_by": "08:00",
            "km": 4.2,
            "drives": "no",
            "cause": "report",
            "recovered_by": "officials",
            "restart": "unknown",
        },
    ),
    "car.restarts": (None, {"stage": "SS1", "ready_by": "08:00"}),
    "reading.taken": (None, {"reading": "pad", "value": 11.5, "unit": "mm", "place": "front-left"}),
    "incident.grouped": (
        None,
        {
            "reports": [REPORT], "title": "The bank", "others_involved": True, "others": "a farm lorry",
            "property_hit": "fence, 4 m", "injured": "nobody", "reported_to": "stage commander", "replaces": [PHOTO],
        },
    ),
    "photo.linked": (JOB, {"photo": PHOTO, "caption": "the rim"}),
    "voice.linked": (JOB, {"voice": PHOTO, "seconds": 12.5}),
    "job.started": (JOB, {}),
    "job.stopped": (JOB, {"ends": [REPORT]}),
    "job.finished": (
        JOB,
        {
            "covers": [REPORT], "ends": [REPORT], "action": "replace", "minutes": 7.5, "mechanics": 2,
            "parts": [{"part": "rim", "qty": 1.5}], "repairers": ["p-bodo"], "temporary": True, "service": "A",
        },
    ),
    "job.deferred": (JOB, {"covers": [REPORT], "to": "road", "reason": "no time"}),
    "inspection.passed": (
        JOB,
        {
            "covers": [REPORT], "until": "B", "shown_to": "scrutineer", "official_said": "may go on", "note": "tight",
            "checks": [{"check": "nuts", "ok": True, "why": "new"}, {"check": "toe", "ok": None, "why": "no gauge"}],
        },
    ),
    "inspection.failed": (JOB, {"covers": [], "checks": [{"check": "nuts", "ok": False, "why": "x"}], "note": "loose"}),
    "car.released": (None, {
        "service": "A",
        "covers": [REPORT],
        "reason": "to the finish",
        "answers": [
            {"ask": "nuts", "place": "front-left", "entries": [REPORT], "ok": True, "by": "p-kasp", "why": "by hand"}
        ],
    }),
    "task.started": ("open car-on-stands", {"service": "A"}),
    "task.finished": ("open car-on-stands", {"service": "A"}),
    "briefing.acknowledged": ("A", {"service": "A", "queue": PHOTO}),
    "cost.adjusted": (None, {"line": JOB, "amount": "-12.50", "reason": "own stock"}),
    "handover.signed": (
        None,
        {
            "walk": "out", "agreement": "hire", "odometer_km": 18204.5, "fuel_percent": 75,
            "tread": [{"place": "front-left", "mm": 6.5}], "pads": [{"place": "front-left", "mm": 11}],
            "fluids": [{"fluid": "brake-fluid", "level": "full"}], "kit": [{"item": "jack", "aboard": True}],
            "photos": [{"view": "front", "photo": PHOTO, "why_none": "dark"}], "marks": [REPORT],
            "signed": [{"side": "customer", "name": "Lena", "how": "on-screen", "photo": PHOTO}],
            "note": "dirty", "needs_cleaning": True, "replaces": [REPORT],
        },
    ),
    "charge.decided": (
        "repair/41/front-left/tyre",
        {
            "charge": "damage", "incident": REPORT, "worn": [{"part": "tyre", "used_percent": 40}],
            "reason": "cut", "replaces": [REPORT],
        },
    ),
    "charge.added": (
        "other/41/fuel",
        {
            "charge": "fuel", "says": "Fuel", "qty": 32.5, "unit": "l", "price": "2.10", "tax_percent": 19,
            "reason": "receipt", "photos": [PHOTO], "replaces": [REPORT],
        },
    ),
    "part.fitted": (JOB, {"serial": "D-7", "rebuilt": True, "since": "2026-05-31", "note": "from the shelf"}),
    "part.retained": (JOB, {"tag": "R-7", "shelf": "B2", "part": "rim"}),
    "statement.issued": (None, {"number": 2, "supplements": 1, "agreement": "hire", "content": CONTENT}),
    "statement.line_settled": (
        REPORT,
        {"line": JOB, "standing": "disputed", "reason": "was there before", "replaces": [REPORT]},
    ),
    "entry.voided": (None, {"voids": [REPORT], "reason": "mis-tap"}),
}  # fmt: skip


def plain(value: object) -> object:
    """What a parsed value looks like as JSON: structs as objects, decimals as they were written."""
    if isinstance(value, Decimal):
        return value
    if hasattr(value, "__struct_fields__"):
        return {name: plain(getattr(value, name)) for name in value.__struct_fields__}
    return [plain(item) for item in value] if isinstance(value, list) else value


def as_written(value: Any) -> Any:
    """The written value with its numbers exact, as the parsed one has them."""
    if isinstance(value, dict):
        return {name: as_written(item) for name, item in value.items()}
    if isinstance(value, list):
        return [as_written(item) for item in value]
    return Decimal(str(value)) if isinstance(value, float) else value


def test_every_kind_has_an_example_here():
    assert set(FULL) == set(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_each_field_of_a_kind_comes_through(kind):
    subject, data = FULL[kind]
    (entry,) = parsed([PEN.entry(kind, subject, **data)])
    read: Any = plain(entry.data)
    assert set(data) <= set(read)
    for name, value in as_written(data).items():
        assert read[name] == (Decimal(value) if name == "amount" else value), name


@pytest.mark.parametrize("kind", KINDS)
def test_a_field_that_nobody_knows_yet_does_not_disturb(kind):
    subject, data = FULL[kind]
    (entry,) = parsed([PEN.entry(kind, subject, **data, of_a_later_version={"deep": [1, None]})])
    assert entry.kind == kind


# The fields without which a kind says nothing; all others may be left out or null.
NEEDED = {
    "report.amended": {"replaces"},
    "report.withdrawn": {"replaces"},
    "stage.nothing_seen": {"stage"},
    "service.entered": {"service"},
    "service.left": {"service"},
    "driver.changed": {"driver"},
    "control.entered": {"control"},
    "control.left": {"ends"},
    "driver.asked": {"answers"},
    "reading.taken": {"reading", "value"},
    "incident.grouped": {"reports"},
    "photo.linked": {"photo"},
    "voice.linked": {"voice"},
    "car.released": {"service"},
    "task.started": {"service"},
    "task.finished": {"service"},
    "briefing.acknowledged": {"service"},
    "cost.adjusted": {"line", "amount"},
    "handover.signed": {"walk"},
    "charge.added": {"charge", "says", "price"},
    "part.retained": {"tag"},
    "statement.issued": {"number", "agreement", "content"},
    "statement.line_settled": {"line", "standing"},
    "entry.voided": {"voids"},
}


@pytest.mark.parametrize("kind", KINDS)
def test_null_means_the_same_as_absent(kind):
    subject, data = FULL[kind]
    needed = {name: data[name] for name in NEEDED.get(kind, ())}
    short = PEN.entry(kind, subject, **needed)
    long = {**short, "data": {**dict.fromkeys(data), **needed}}
    assert parse_entry(raw(long)) == parse_entry(raw(short))


def test_a_report_with_nothing_but_a_zone_or_a_symptom_or_nothing_at_all_is_taken():
    for data in ({"zone": "front-left"}, {"symptoms": ["long-pedal"]}, {}):
        (entry,) = parsed([PEN.entry("report.filed", **data)])
        assert isinstance(entry.data, Body)
        assert (entry.data.where, entry.data.cause) == ("unknown", "unknown")


def test_numbers_are_kept_exactly_as_decimals():
    (entry,) = parsed([PEN.entry("report.filed", km=0.1)])
    assert entry.data.km == Decimal("0.1")
    (text,) = parsed([PEN.entry("job.finished", JOB, minutes="7.25")])
    assert text.data.minutes == Decimal("7.25")
