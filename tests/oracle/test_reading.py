"""Checks the second reading itself on small cases that were worked out by hand from the rules' own text."""

import json
from pathlib import Path

from .reading import queue

HOSE, WHEEL = "front-left/brake-hose", "front-left/wheel"
EVENT = """event = "hand-made"
[[cars]]
car = "41"
[[people]]
person = "p-looker"
roles = ["inspector"]
[[people]]
person = "p-both"
roles = ["mechanic", "inspector"]
[[stages]]
stage = "SS1"
[[stages]]
stage = "SS2"
[[services]]
service = "A"
after = "SS1"
"""
CAR_MAP = """safety_groups = []
[zones.front-left]
components = ["wheel", "hub", "brake-hose"]
[components.wheel]
[components.hub]
[components.brake-hose]
group = "brake"
[[knock_on]]
component = "wheel"
conditions = ["bent"]
same_zone = ["brake-hose", "strut"]
"""
RATES = {
    "operations.csv": "component,condition,action,minutes_best,minutes_likely,minutes_worst,mechanics,access,parts,"
    "must_do,value\nwheel,bent,replace,3,4,8,1,car-on-stands,wheel,true,10\n",
    "access.csv": "step,per,minutes_open,minutes_close,mechanics\ncar-on-stands,car,1,1.5,2\n",
    "parts.csv": "part,description,unit_cost\nwheel,Wheel,210.00\n",
    "rates.toml": 'currency = "EUR"\nlabour_per_hour = 60\ninspect_minutes = [1, 2, 4]\nassess_minutes = [5, 10, 20]\n',
}


def asked(root: Path, *entries: dict) -> dict:
    """The queue of the hand-made folder with these entries."""
    (root / "rates").mkdir()
    (root / "event.toml").write_text(EVENT)
    (root / "car_map.toml").write_text(CAR_MAP)
    for name, text in RATES.items():
        (root / "rates" / name).write_text(text)
    (root / "van.csv").write_text("part,loaded\nwheel,1\n")
    (root / "entries.jsonl").write_text("".join(json.dumps(one) + "\n" for one in entries))
    return queue(root, "hand-made", "41", None)


def entry(own_id: str, kind: str, subject: str | None, person: str = "p-crew", **data: object) -> dict:
    """One entry."""
    named = {"id": own_id, "kind": kind, "event": "hand-made", "car": "41", "subject": subject, "person": person}
    return named | {"data": data}


def said(own_id: str, *findings: str, replaces: list | None = None, **more: object) -> dict:
    """A version of the report `r1`, its findings as `component condition`, on the front left."""
    body = {
        "zone": "front-left",
        "stage": "SS1",
        "findings": [dict(zip(("component", "condition"), one.split(), strict=True)) for one in findings],
    }
    kind = "report.filed" if replaces is None else "report.amended"
    return entry(own_id, kind, "r1", **(body | {"replaces": replaces or []} | more))


def job_of(answer: dict, key: str) -> dict:
    """The one job of a key."""
    return next(job for job in answer["jobs"] if job["job"] == key)


def test_the_wheel_worked_through(tmp_path: Path) -> None:
    """A bent wheel: 3, 4, 8 minutes give 4.5 expected; at 60 an hour 4.50, with the part 214.50; a hose to look at."""
    answer = asked(tmp_path, said("r1", "wheel bent"))
    assert [job["job"] for job in answer["jobs"]] == [HOSE, WHEEL]
    wheel = job_of(answer, WHEEL)
    assert (wheel["state"], wheel["must_do"], wheel["action"], wheel["inspection"]) == (
        "open",
        True,
        "replace",
        "not-needed",
    )
    assert wheel["estimate"] == {
        "minutes_best": 3, "minutes_likely": 4, "minutes_worst": 8, "minutes_expected": 4.5, "mechanics": 1,
        "access": ["car-on-stands"], "labour": "4.50",
        "parts": [{"part": "wheel", "qty": 1, "unit_cost": "210.00", "short": 0}],
        "parts_cost": "210.00", "total": "214.50", "currency": "EUR",
    }  # fmt: skip
    # The hose: (1 + 8 + 4) / 6 = 2.1666… minutes, 2.17. The stands: (1 + 1.5) × 2 = 5 minutes, 5.00.
    assert answer["totals"] == {
        "mechanic_minutes": 11.67, "access_minutes": 5, "labour": "11.67", "parts_cost": "210.00", "total": "221.67",
    }  # fmt: skip
    assert answer["hold_reasons"] == [{"job": HOSE, "needs": "inspection", "entries": ["r1"]}]
    assert job_of(answer, HOSE)["knock_on"]


def test_brake_amended_away_stays_as_retracted(tmp_path: Path) -> None:
    """Safety is sticky: the hose stays to be looked at; the wheel and what it knocked on go."""
    answer = asked(tmp_path, said("r1", "brake-hose leaking", "wheel bent"), said("v2", "hub marked", replaces=["r1"]))
    assert {job["job"]: job["retracted"] for job in answer["jobs"]} == {HOSE: True, "front-left/hub": False}
    assert job_of(answer, HOSE)["condition"] == "unknown"


def test_ring_stays(tmp_path: Path) -> None:
    """Two versions that replace each other are both heads; one below them takes both away."""
    ring = [said("v2", "hub bent", replaces=["r1", "v3"]), said("v3", "hub worn", replaces=["v2"])]
    (tmp_path / "a").mkdir()
    answer = asked(tmp_path / "a", said("r1", "hub flat"), *ring)
    assert job_of(answer, "front-left/hub")["findings"] == ["v2", "v3"]
    assert job_of(answer, "front-left/hub")["two_versions"]
    (tmp_path / "b").mkdir()
    answer = asked(tmp_path / "b", said("r1", "hub flat"), *ring, said("v4", "hub loose", replaces=["v2"]))
    assert job_of(answer, "front-left/hub")["findings"] == ["v4"]


def test_right_km_keeps_the_job_closed_and_worse_opens_it(tmp_path: Path) -> None:
    """A repair covers what says the same again, and so on down; not what says worse."""
    done = entry("j1", "job.finished", WHEEL, covers=["r1"])
    same = [said("v2", "wheel bent", replaces=["r1"], km=3), said("v3", "wheel bent", replaces=["v2"], km=4)]
    (tmp_path / "a").mkdir()
    assert job_of(asked(tmp_path / "a", said("r1", "wheel bent"), done, *same), WHEEL)["state"] == "finished"
    (tmp_path / "b").mkdir()
    worse = said("v4", "wheel broken", replaces=["v3"])
    assert job_of(asked(tmp_path / "b", said("r1", "wheel bent"), done, *same, worse), WHEEL)["state"] == "open"


def test_nobody_passes_the_own_repair(tmp_path: Path) -> None:
    """An inspector who began the repair that another finished is a repairer; another inspector's pass is good."""
    work = [
        said("r1", "brake-hose leaking"),
        entry("s1", "job.started", HOSE, "p-both"),
        entry("j1", "job.finished", HOSE, "p-mechanic", covers=["r1"], ends=["s1"]),
    ]
    for name, person, left in (("a", "p-both", ["j1", "r1"]), ("b", "p-looker", [])):
        (tmp_path / name).mkdir()
        checks = [{"check": "dry", "ok": True}]
        passed = entry("i1", "inspection.passed", HOSE, person, covers=["j1", "r1"], checks=checks)
        answer = asked(tmp_path / name, *work, passed)
        assert job_of(answer, HOSE)["uncovered"] == left
        assert answer["release"] == ("hold" if left else "nothing-open")


def test_late_report_opens_again_and_was_released_unseen(tmp_path: Path) -> None:
    """A report of before the service that came after the sign-off; one of the stage after the service is not listed."""
    late = entry("r2", "report.filed", "r2", zone="front-left", stage="SS1", findings=[], symptoms=["hiss"])
    later = entry("r3", "report.filed", "r3", zone="front-left", stage="SS2", findings=[], symptoms=["hiss"])
    released = entry("x1", "car.released", None, service="A", covers=["r1"])
    answer = asked(tmp_path, said("r1", "brake-hose worn"), released, late, later)
    unseen = [{"released": "x1", "service": "A", "job": "front-left/unknown", "entries": ["r2"]}]
    assert answer["released_unseen"] == unseen
