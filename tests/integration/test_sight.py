"""Who sees what: each role, each answer, each field, each kind of entry, and each document, by the one table."""

import json
from collections.abc import Callable, Iterator
from typing import Any, get_args, get_origin

import msgspec
import pytest

from every_kind import one_of_each
from making import Json, Pen
from phone import EVENT, NOW, Phone
from sample_event import event_files
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.flow import uploads
from shuntbook.queue.answer import Queue, Release
from shuntbook.report.kinds import KINDS
from shuntbook.setup.words import ROLES
from shuntbook.store.database import Store
from shuntbook.wire import sight
from shuntbook.wire.setup_schemas import EventSetupSchema
from shuntbook.wire.sight import ANSWERS, ENTRIES, PAPERS, QUEUE, ROLE_SIGHTS, SETUP, Sight

LIMITED = "co-driver of car 41"
WHO = {**{role: (role, ROLE_SIGHTS[role]) for role in ROLES}, LIMITED: ("co-driver", Sight.CAR)}
"""Each role, and a co-driver for whom the set-up names a car: the role of the phone, what it sees."""

# What stays hidden is written here a second time, as plain names: a line moved in the table by mistake is seen.
MONEY_KINDS = {"cost.adjusted", "charge.decided", "charge.added", "statement.issued", "statement.line_settled"}
PRICES = {
    "jobs.estimate.labour", "jobs.estimate.parts_cost", "jobs.estimate.total", "jobs.estimate.parts.unit_cost",
    "jobs.estimate.parts.short", "totals.labour", "totals.parts_cost", "totals.total",
}  # fmt: skip


def set_up(store: Store, limited: bool = False, advice: bool = False) -> None:
    """Put the sample event's set-up in force; limited: its co-driver is shown car 41 only."""
    files = event_files("off")
    toml = files["event.toml"]
    if limited:
        toml = toml.replace(b'person = "p-toma"\n', b'person = "p-toma"\ncars = ["41"]\n')
    if advice:
        toml = toml.replace(b"advice_on_road = false", b"advice_on_road = true")
    assert toml != files["event.toml"] or not (limited or advice)
    uploads.put_setup(store, EVENT, {**files, "event.toml": toml}, NOW)


@pytest.fixture
def phone_of(phone: Callable[[str], Phone], sample_store: Store) -> Callable[..., Phone]:
    """Makes the phone of one of WHO."""

    def made(who: str, advice: bool = False) -> Phone:
        role, sees = WHO[who]
        limited = sees is Sight.CAR
        if limited or advice:  # the store has the plain one
            set_up(sample_store, limited, advice)
        return phone(role)

    return made


def test_each_field_kind_and_document_has_a_line_and_each_line_is_of_one() -> None:
    assert set(SETUP) == set(EventSetupSchema().fields)
    assert set(ENTRIES) == set(KINDS)
    assert set(QUEUE) == set(paths_of(Queue)) | set(paths_of(Release))
    assert set(PAPERS) == set(DOCUMENTS)
    assert set(ROLE_SIGHTS) == set(ROLES)
    assert {kind for kind, least in ENTRIES.items() if least is Sight.MANAGER} == MONEY_KINDS
    assert {path for path, least in QUEUE.items() if least > Sight.CAR} == PRICES


def paths_of(kind: Any, before: str = "") -> Iterator[str]:
    """Yield the path of each field of an answer's class, those of what it holds, too."""
    for field in msgspec.structs.fields(kind):
        path = f"{before}.{field.name}".lstrip(".")
        yield path
        for one in (field.type, *get_args(field.type)):
            if isinstance(one, type) and get_origin(one) is None and issubclass(one, msgspec.Struct):
                yield from paths_of(one, path)


def test_what_has_no_line_is_shown_to_nobody_but_a_manager() -> None:
    for least, sees in [(one, sight.Sees(one, ("41",))) for one in Sight]:
        assert sees.sees_entry("kind.of-tomorrow", "41") is (least is Sight.MANAGER)
        assert ("field_of_tomorrow" in sight.setup_seen({"field_of_tomorrow": 1}, sees)) is (least is Sight.MANAGER)


@pytest.mark.parametrize("who", WHO)
def test_the_set_up_by_role(phone_of, who: str) -> None:
    told = phone_of(who).get("/setup").get_json()["events"][0]
    assert set(told) == {name for name, least in SETUP.items() if WHO[who][1] >= least}
    assert ("agreements" in told) is (who == "manager")
    assert ("rate_table" in told) is ("van" in told) is (who != LIMITED)


@pytest.mark.parametrize("who", WHO)
def test_entries_by_role_and_kind(phone_of, phone, pen: Pen, who: str) -> None:
    sent = [*one_of_each(pen), *one_of_each(pen, car="42")]
    for start in range(0, len(sent), 50):
        phone("mechanic").sync(*sent[start : start + 50])
    got = {one["id"]: one for one in phone_of(who).pull()}
    for entry in sent:
        hidden = entry["kind"] in MONEY_KINDS and who != "manager"
        others = who == LIMITED and entry["car"] == "42"
        assert got[entry["id"]] == (stand_in(entry) if hidden or others else entry)


def stand_in(entry: Json) -> Json:
    """Return what stands in an entry's place."""
    return {name: entry[name] for name in ("id", "event", "car")} | {"withheld": True}


def with_head(entry: Json, others: bool) -> Json:
    """Return the same for a phone that asks for heads: nothing of what it says."""
    kept = {name: entry[name] for name in ("id", "event", "car", "at", "device", "seq", "person")}
    kind = "withheld.car" if others else "withheld"
    return {**kept, "v": 1, "kind": kind, "subject": "", "data": {}, "withheld": True}


@pytest.mark.parametrize("who", WHO)
def test_a_withheld_entry_counts_in_the_queue_and_says_nothing_of_its_text(phone_of, phone, pen: Pen, who: str) -> None:
    secret = pen.entry("cost.adjusted", line="front-left/wheel", amount="987.65", reason="a secret of the manager")
    phone("manager").sync(secret)
    reader = phone_of(who)
    body = reader.send().data
    assert (b"secret" in body or b"987.65" in body) is (who == "manager")
    pulled = [one for one in reader.pull() if one["car"] == "41"]
    assert len(pulled) == reader.queue()["entries"]


@pytest.mark.parametrize("who", WHO)
def test_the_queue_field_by_field(phone_of, phone, pen: Pen, who: str) -> None:
    phone("mechanic").sync(pen.filed("front-left/wheel bent"), pen.filed("front-left/brake-hose cracked"))
    whole, told = phone("manager").queue(), phone_of(who).queue()
    if who != LIMITED:
        assert json.dumps(told) == json.dumps(whole)
        return
    assert {path for path, value in values_of(told) if value is None} >= PRICES
    told_of = [one for one in values_of(told) if one[0] not in PRICES | {"hash"}]
    assert told_of == [one for one in values_of(whole) if one[0] not in PRICES | {"hash"}]
    assert told["hash"] != whole["hash"]


def values_of(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Yield each plain value of an answer with its path."""
    if isinstance(value, dict):
        for name, one in value.items():
            yield from values_of(one, f"{path}.{name}".lstrip("."))
    elif isinstance(value, list):
        for one in value:
            yield from values_of(one, path)
    else:
        yield path, value


def test_a_queue_without_prices_has_a_tag_of_its_own(phone_of, phone, pen: Pen) -> None:
    phone("mechanic").sync(pen.filed("front-left/wheel bent"))
    limited, manager = phone_of(LIMITED), phone("manager")
    path = f"/events/{EVENT}/cars/41/queue"
    first, whole = limited.get(path), manager.get(path)
    assert first.headers["ETag"] != whole.headers["ETag"]
    for one, other in ((limited, first), (manager, whole)):
        assert one.get(path, headers={"If-None-Match": other.headers["ETag"]}).status_code == 304
    assert limited.get(path, headers={"If-None-Match": whole.headers["ETag"]}).status_code == 200


@pytest.mark.parametrize("who", WHO)
def test_answers_by_role(phone_of, who: str) -> None:
    reader, car = phone_of(who), f"/events/{EVENT}/cars/41"
    paths = {"queue": f"{car}/queue", "release": f"{car}/release", "lives": f"{car}/lives", "passes": f"{car}/passes",
             "costs": f"/events/{EVENT}/costs", "statements": f"{car}/statements", "files": f"/events/{EVENT}/files",
             "rates.observed": f"/events/{EVENT}/rates/observed", "spares": f"/events/{EVENT}/spares"}  # fmt: skip
    assert set(paths) | {"plan"} == set(ANSWERS)
    may = {name: reader.get(path).status_code for name, path in paths.items()}
    assert may == {name: 200 if WHO[who][1] >= ANSWERS[name] else 403 for name in paths}
    asked = reader.client.post(f"/api/v1{car}/plan", json={"service": "none"}, headers=reader.headers).status_code
    assert asked == (404 if WHO[who][1] >= ANSWERS["plan"] else 403)


@pytest.mark.parametrize("advice", [False, True])
@pytest.mark.parametrize("who", WHO)
def test_documents_by_role_with_and_without_advice_on_the_road(phone_of, phone, pen: Pen, who, advice: bool) -> None:
    phone("manager").sync(pen.filed("front-left/wheel bent"))
    reader = phone_of(who, advice)
    for name, paper in PAPERS.items():
        status = reader.get(f"/events/{EVENT}/cars/41/documents/{name}.pdf").status_code
        may = WHO[who][1] >= (paper.with_advice if advice else paper.always)
        # 404: the paper is theirs, and there is nothing yet to print.
        assert (status in (200, 404)) is may, name
        assert status != 403 or not may, name


@pytest.mark.parametrize("path", ["queue", "release", "documents/hand-over.pdf", "documents/record.pdf"])
def test_who_is_limited_to_a_car_reads_nothing_of_another(phone_of, path: str) -> None:
    refused = phone_of(LIMITED, True).get(f"/events/{EVENT}/cars/42/{path}")
    assert (refused.status_code, "car 41 and no other" in refused.text) == (403, True)


def test_what_one_person_of_a_phone_is_not_shown_the_other_asks_for(phone, pen: Pen) -> None:
    hidden = pen.entry("cost.adjusted", line="front-left/wheel", amount="1.00")
    phone("manager").sync(hidden)
    mechanic, manager = phone("mechanic"), phone("manager")
    assert [one for one in mechanic.pull() if one["id"] == hidden["id"]] == [stand_in(hidden)]
    manager.pull()
    # The phone's cursor is past it; the manager's device on the same phone names what it lacks.
    for asking, wanted in ((manager, hidden), (mechanic, stand_in(hidden))):
        body = {"cursor": mechanic.cursor, "log_id": mechanic.log_id, "entries": [], "lacks": [hidden["id"], "no such"]}
        assert asking.post(json.dumps(body).encode()).get_json()["entries"] == [wanted]


@pytest.mark.parametrize(("asks", "program"), [({"heads": True}, "curl/8"), ({}, "Mozilla/5.0 (an app of 0.1)")])
def test_an_app_is_sent_heads_from_which_it_tells_gaps(phone, pen: Pen, asks: Json, program: str) -> None:
    hidden = pen.entry("cost.adjusted", line="front-left/wheel", amount="1.00")
    phone("manager").sync(hidden)
    mechanic = phone("mechanic")
    body = json.dumps({"cursor": 0, "log_id": mechanic.log_id, "entries": [], **asks}).encode()
    sent = mechanic.post(body, {"User-Agent": program}).get_json()["entries"]
    assert [one for one in sent if one["id"] == hidden["id"]] == [with_head(hidden, others=False)]


def test_a_phone_that_sends_back_what_stood_for_an_entry_is_told_all_is_well_and_nothing_is_kept_or_set_aside(
    phone, pen: Pen, sample_store: Store
) -> None:
    hidden = pen.entry("cost.adjusted", line="front-left/wheel", amount="1.00")
    phone("manager").sync(hidden)
    mechanic = phone("mechanic")
    held = [one for one in mechanic.pull() if one.get("withheld")]
    unknown = {**held[0], "id": pen.filed()["id"]}
    answer = mechanic.sync(*held, unknown)
    assert answer["accepted"] == [one["id"] for one in (*held, unknown)]
    assert sample_store.db.conn.execute("SELECT count(*) FROM set_aside").fetchone() == (0,)
    assert phone("manager").get("/set-aside").get_json() == []
