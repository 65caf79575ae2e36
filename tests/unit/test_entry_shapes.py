"""What parse_entry refuses, with the code and the field of each reason."""

import pytest

from making import Pen, raw
from shuntbook.kit.errors import BadEntry
from shuntbook.report.entry import MAX_BYTES, parse_entry

PEN = Pen("small-2026")
GOOD = PEN.filed("front-left/wheel bent", stage="SS1", km=3.5)


def reason(data: bytes) -> BadEntry:
    with pytest.raises(BadEntry) as caught:
        parse_entry(data)
    return caught.value


def without(field: str) -> dict:
    return {name: value for name, value in GOOD.items() if name != field}


@pytest.mark.parametrize("field", ["id", "v", "kind", "event", "car", "at", "device", "seq", "person", "data"])
def test_an_entry_without_a_field_says_which(field):
    refused = reason(raw(without(field)))
    assert refused.code == "wrong-shape"
    assert field in str(refused)


def test_an_id_in_upper_case_is_told_to_be_written_in_lower_case():
    refused = reason(raw({**GOOD, "id": GOOD["id"].upper(), "subject": GOOD["id"].upper()}))
    assert (refused.code, refused.field) == ("wrong-shape", "id")
    assert "write ids in lower case" in str(refused)


# (field, value, code, field of the reason)
ENVELOPES = [
    ("v", 2, "unknown-version", "v"),
    ("v", "1", "wrong-shape", "v"),
    ("v", True, "wrong-shape", "v"),
    ("kind", "report.shouted", "unknown-kind", "kind"),
    ("kind", 7, "wrong-shape", "kind"),
    ("id", "41", "wrong-shape", "id"),
    ("id", "017f22e2-79b0-4cc3-98c4-dc0c0c07398f", "wrong-shape", "id"),
    # The sample of RFC 9562, appendix A.6, in the letters that it is printed in there.
    ("id", "017F22E2-79B0-7CC3-98C4-DC0C0C07398F", "wrong-shape", "id"),
    ("event", "", "wrong-shape", "event"),
    ("car", 41, "wrong-shape", "car"),
    ("car", "", "wrong-shape", "car"),
    ("person", None, "wrong-shape", "person"),
    ("device", "x" * 201, "wrong-shape", "device"),
    ("seq", 0, "wrong-shape", "seq"),
    ("seq", -1, "wrong-shape", "seq"),
    ("seq", 1.5, "wrong-shape", "seq"),
    ("seq", 2**53 + 1, "wrong-shape", "seq"),
    ("subject", "017f22e2-79b0-7cc3-98c4-dc0c0c07398f", "wrong-shape", "subject"),
    ("subject", None, "wrong-shape", "subject"),
    ("data", [], "wrong-shape", "data"),
    # RFC 3339, section 5.6: date-time with its offset.
    ("at", "2026-06-13T08:00:00", "wrong-shape", "at"),
    ("at", "2026-06-13", "wrong-shape", "at"),
    ("at", "2026-02-30T08:00:00Z", "wrong-shape", "at"),
    ("at", "2026-06-13T25:00:00Z", "wrong-shape", "at"),
    ("at", "13.6.2026 8:00", "wrong-shape", "at"),
    ("at", 1750000000, "wrong-shape", "at"),
]


@pytest.mark.parametrize(("field", "value", "code", "where"), ENVELOPES)
def test_an_entry_with_a_wrong_field_says_why_and_where(field, value, code, where):
    refused = reason(raw({**GOOD, field: value}))
    assert (refused.code, refused.field) == (code, where)


# RFC 3339, section 5.8, its examples; 1990-12-31T23:59:60Z is a leap second.
@pytest.mark.parametrize(
    "at",
    [
        "1985-04-12T23:20:50.52Z",
        "1996-12-19T16:39:57-08:00",
        "1990-12-31T23:59:60Z",
        "1990-12-31T15:59:60-08:00",
        "1937-01-01T12:00:27.87+00:20",
        "1985-04-12t23:20:50.52z",
    ],
)
def test_times_of_the_standard_are_taken(at):
    assert parse_entry(raw({**GOOD, "at": at})).at == at


# (kind, subject, data, field of the reason)
DATA = [
    ("report.filed", None, {"findings": [{"component": "a", "condition": "dented"}]}, "data.findings[0].condition"),
    ("report.filed", None, {"findings": [{"condition": "bent"}]}, "data.findings[0]"),
    ("report.filed", None, {"findings": [{"component": "a/b"}]}, "data.findings[0].component"),
    ("report.filed", None, {"findings": "wheel"}, "data.findings"),
    ("report.filed", None, {"zone": "front/left"}, "data.zone"),
    ("report.filed", None, {"where": "home"}, "data.where"),
    ("report.filed", None, {"cause": "gremlin"}, "data.cause"),
    ("report.filed", None, {"direction": 13}, "data.direction"),
    ("report.filed", None, {"direction": 0}, "data.direction"),
    ("report.filed", None, {"direction": "above"}, "data.direction"),
    ("report.filed", None, {"km": -1}, "data"),
    ("report.filed", None, {"km": "NaN"}, "data"),
    ("report.filed", None, {"km": "Infinity"}, "data"),
    ("report.filed", None, {"km": "far"}, "data.km"),
    ("report.filed", None, {"photos": ["short"]}, "data.photos[0]"),
    ("report.filed", None, {"photos": ["A" * 64]}, "data.photos[0]"),
    ("report.filed", None, {"note": "x" * 4001}, "data.note"),
    ("report.filed", None, {"drives": "sideways"}, "data.drives"),
    ("report.amended", GOOD["id"], {}, "data"),
    ("report.amended", GOOD["id"], {"replaces": "all"}, "data.replaces"),
    ("report.amended", None, {"replaces": [GOOD["id"]]}, "subject"),
    ("report.withdrawn", "", {"replaces": [GOOD["id"]]}, "subject"),
    ("stage.nothing_seen", None, {}, "data"),
    ("stage.nothing_seen", None, {"stage": "SS1", "how": "guessed"}, "data.how"),
    ("job.started", "wheel", {}, "subject"),
    ("job.started", "a/b/c", {}, "subject"),
    ("job.started", None, {}, "subject"),
    ("inspection.failed", "/wheel", {}, "subject"),
    ("job.finished", "front-left/wheel", {"minutes": -1}, "data"),
    ("job.finished", "front-left/wheel", {"mechanics": 1.5}, "data.mechanics"),
    ("job.finished", "front-left/wheel", {"parts": [{"part": "rim", "qty": -1}]}, "data.parts[0]"),
    ("job.finished", "front-left/wheel", {"temporary": "yes"}, "data.temporary"),
    ("job.deferred", "front-left/wheel", {"to": "never"}, "data.to"),
    ("inspection.passed", "front-left/wheel", {"checks": [{"ok": True}]}, "data.checks[0]"),
    ("inspection.passed", "front-left/wheel", {"checks": [{"check": "nuts", "ok": 1}]}, "data.checks[0].ok"),
    ("car.released", None, {}, "data"),
    ("cost.adjusted", None, {"line": "a/b"}, "data"),
    ("cost.adjusted", None, {"line": "a/b", "amount": "lots"}, "data.amount"),
    ("entry.voided", None, {}, "data"),
    ("photo.linked", None, {"photo": "x"}, "data.photo"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "subject", "data", "where"), DATA)
def test_data_of_a_wrong_shape_say_where(kind, subject, data, where):
    entry = PEN.entry(kind, subject, **data)
    refused = reason(raw(entry))
    assert (refused.code, refused.field) == ("wrong-shape", where)


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"   ",
        b"{",
        raw(GOOD)[:-1],
        raw(GOOD) + b"}",
        raw({**GOOD, "extra": 0}).replace(b"0}", b"NaN}"),
        raw({**GOOD, "extra": 0}).replace(b"0}", b"-Infinity}"),
        raw({**GOOD, "extra": "@"}).replace(b"@", b"\xff\xfe"),
        raw({**GOOD, "person": "@"}).replace(b"@", b"\xc3"),
        raw({**GOOD, "extra": "@"}).replace(b"@", b"\x00"),
        b'{"a":' * 2600 + b"1" + b"}" * 2600,
        raw(GOOD)[:-1] + b', "x":' + b"[" * 12000,
    ],
)
def test_what_is_no_json_is_called_that(data):
    assert reason(data).code == "not-json"


@pytest.mark.parametrize("data", [b"[]", b"null", b"41", b'"entry"'])
def test_json_that_is_no_object_has_the_wrong_shape(data):
    assert reason(data).code == "wrong-shape"


def test_a_number_beyond_all_measure_has_the_wrong_shape():
    entry = PEN.entry("reading.taken", reading="oil", value=0)
    assert reason(raw(entry).replace(b'"value": 0', b'"value": 1e400')).code == "wrong-shape"


def test_data_nested_deeper_than_any_form_are_refused():
    nested: object = 1
    for _ in range(40):
        nested = [nested]
    refused = reason(raw({**GOOD, "data": {"extra": nested}}))
    assert (refused.code, refused.field) == ("wrong-shape", "data")


def test_sixteen_kibibytes_are_taken_and_one_byte_more_is_not():
    padding = MAX_BYTES - len(raw({**GOOD, "extra": ""}))
    assert parse_entry(raw({**GOOD, "extra": "x" * padding})).id == GOOD["id"]
    assert reason(raw({**GOOD, "extra": "x" * (padding + 1)})).code == "too-large"
