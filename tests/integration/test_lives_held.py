"""Parts with a life over a real store and real HTTP: who reads them, what the plan and the parts order make of them."""

import csv
import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from command import printed, run
from msgspec import to_builtins
from pypdf import PdfReader

from making import Json, Pen, raw
from other_event import OTHER, other_files
from phone import EVENT, NOW, PEOPLE, Phone
from plan_rules import broken_rules
from sample_event import event_files
from shuntbook.flow import answers, uploads
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.flow.lives import lives
from shuntbook.flow.papers import Asked, car_document, parts_order_csv
from shuntbook.flow.planning import context_of, plan_at_once, plans
from shuntbook.flow.team import TeamPlanRequest, team_plan_at_once
from shuntbook.plan.context import PlanRequest
from shuntbook.plan.solve import Effort
from shuntbook.setup.folder import Setup
from shuntbook.store import setups
from shuntbook.store.database import Store

GUARDS, PADS = "under-middle/floor-guards", "front-left/brake-pads"
PATH = f"/events/{EVENT}/cars/41/lives"
LIVES = b"""
[[lives]]
component = "floor-guards"
label = "Floor guards"
days = 90
must_do = true
[[lives]]
component = "brake-pads"
place = "front-left"
stage_km = 1
"""
QUICK = Effort(deterministic_s=0.1)


def with_lives(store: Store) -> None:
    files = event_files("off")
    uploads.put_setup(store, EVENT, {**files, "event.toml": files["event.toml"] + LIVES}, NOW)


@pytest.fixture
def lived(sample_store: Store, phone: Callable[..., Phone], pen: Pen) -> Store:
    """The sample event, whose floor guards were fitted a year ago and whose front pads last 1 km."""
    with_lives(sample_store)
    fitted = pen.entry("part.fitted", GUARDS, person="p-bodo", serial="G-3", since="2025-06-14")
    assert phone("mechanic").sync(fitted)["rejected"] == []
    return sample_store


def states(answer: Json) -> list[tuple[str, str]]:
    return [(one["job"], one["state"]) for one in answer["lives"]]


def test_who_works_on_the_car_reads_what_is_due_and_the_command_prints_the_same(
    lived: Store, phone: Callable[..., Phone], data_folder: Path
) -> None:
    answer = phone("mechanic").get(PATH).get_json()
    assert states(answer) == [(GUARDS, "due"), (PADS, "due")]
    guards = answer["lives"][0]
    assert (guards["serial"], guards["must_do"], guards["action"]) == ("G-3", True, "replace")
    assert guards["parts"] == [{"part": "floor-guard", "qty": 1, "unit_cost": guards["parts"][0]["unit_cost"]}]
    assert phone("co-driver").get(PATH).status_code == 403
    assert phone("mechanic").get(PATH.replace("41", "77")).status_code == 404
    assert printed("lives", "--event", EVENT, "--car", "41", data=data_folder) == answer
    said = run("lives", "--event", EVENT, "--car", "41", data=data_folder).stdout.splitlines()
    assert said[0].startswith(f"due, must-do: {GUARDS}: 36")
    assert said[0].endswith("no. G-3, fitted 14 Jun 2025")


def test_jobs_order_hash_and_release_know_nothing_of_lives(sample_store: Store) -> None:
    before = answers.queue(sample_store, EVENT, "41")
    with_lives(sample_store)
    assert answers.queue(sample_store, EVENT, "41") == before


def test_what_another_event_tells_is_for_who_is_in_it(lived: Store, phone: Callable[..., Phone], pen: Pen) -> None:
    """The test day's services have the rally's times, and its name comes first: it counts as held before."""
    toml = other_files()["event.toml"].replace(b'signatures = "on"', b'signatures = "off"')
    uploads.put_setup(lived, OTHER, {**other_files(), "event.toml": toml}, NOW)
    test_day = Pen(OTHER, start=20_000)
    bent = test_day.filed(f"{GUARDS} bent", person="p-zed")
    ran = test_day.entry("stage.nothing_seen", person="p-zed", stage="SS1")
    assert ingest(lived, Batch([raw(bent), raw(ran)], 0, None, None, NOW, None)).rejected == []
    mechanic = phone("mechanic").get(PATH).get_json()
    assert [one["event"] for one in mechanic["lives"][0]["happened"]] == []
    whole = lives(lived, EVENT, "41", None)
    assert [(one.event, one.says) for one in whole.lives[0].happened] == [(OTHER, "bent")]
    # What was run there counts for everybody: the pads had 1 km in them.
    assert [one["limits"] for one in mechanic["lives"]] == to_builtins([one.limits for one in whole.lives])
    assert phone("mechanic").get(f"/events/{OTHER}/cars/41/lives").status_code == 403


def planned_setup(store: Store) -> Setup:
    """The set-up with what is due on car 41 among its routine work, as the rules of a plan judge it."""
    setup = setups.get(store.db, EVENT)
    due = context_of(store, EVENT, "41", PlanRequest("D")).due
    rows = {**setup.event.rows, "routine": (*setup.event.rows["routine"], *(vars(one) for one in due))}
    return replace(setup, event=replace(setup.event, routine=(*setup.event.routine, *due), rows=rows))


def test_what_is_due_is_in_the_plan_until_it_is_ticked(lived: Store, phone: Callable[..., Phone], pen: Pen) -> None:
    name = f"routine renew {GUARDS}"
    found = next(plans(lived, EVENT, "41", PlanRequest("D", on_time_percent=0, effort=QUICK)))
    known = [task.task for task in found.tasks] + [out.job for out in found.left_out]
    assert {name, f"routine renew {PADS}"} <= set(known)
    assert broken_rules(found, answers.queue(lived, EVENT, "41"), planned_setup(lived)) == []
    team = team_plan_at_once(lived, EVENT, TeamPlanRequest((("41", "D"), ("42", "D"))))
    of_41 = next(one for one in team.cars if one.car == "41")
    assert name in [task.task for task in of_41.tasks] + [out.job for out in of_41.left_out]
    done = pen.entry("task.finished", name, person="p-bodo", service="D")
    assert phone("mechanic").sync(done)["rejected"] == []
    again = plan_at_once(lived, EVENT, "41", PlanRequest("D", on_time_percent=0))
    assert name not in [task.task for task in again.tasks] + [out.job for out in again.left_out]


def test_the_parts_order_has_what_is_due(lived: Store) -> None:
    made = parts_order_csv(lived, EVENT, "41", money=True)
    rows = {row["part"]: row for row in csv.DictReader(io.StringIO(made.data.decode()))}
    assert float(rows["floor-guard"]["qty_needed"]) >= 1
    paper = car_document(lived, EVENT, "41", Asked("parts-order"))
    text = "".join(page.extract_text() for page in PdfReader(io.BytesIO(paper.data)).pages)
    assert "Parts with a life" in text
    assert "due, must-do" in text
    assert PEOPLE["mechanic"] not in text
