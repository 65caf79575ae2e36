"""A plan as a terminal prints it: a mechanic's words, names, and times as they are said in a bay."""

from pathlib import Path

import pytest
from msgspec.structs import replace

from shuntbook.commands.text_plan import PlanWords, lasts, step_words
from shuntbook.flow.load import read_folder
from shuntbook.plan.problem import Kind
from shuntbook.plan.told import LeftOut, PlanTask
from shuntbook.serving import sample_folder


@pytest.fixture(scope="module")
def words() -> PlanWords:
    return PlanWords(read_folder(Path(sample_folder())).setup)


def task(
    name: str,
    kind: Kind,
    zone: str = "",
    job: str | None = None,
    jobs: list[str] | None = None,
    step: str | None = None,
) -> PlanTask:
    return PlanTask(
        task=name,
        kind=kind,
        job=job,
        jobs=jobs or [],
        step=step,
        start_s=0,
        end_s=60,
        people=[],
        zone=zone,
        critical=0,
        state="planned",
    )


FRONT = "front-left"
SAID = [
    (task("open car-on-stands", "open", step="car-on-stands"), "Lift the car"),
    (task("close car-on-stands", "close", step="car-on-stands"), "Lower the car"),
    (task("open wheel-off front-left", "open", FRONT, step="wheel-off"), "Wheel off, front left corner"),
    (task("close wheel-off front-left", "close", FRONT, step="wheel-off"), "Wheel on, front left corner"),
    (
        task("replace front-left/brake-hose", "work", FRONT, "front-left/brake-hose"),
        "Replace brake hose, front left corner",
    ),
    (
        task(
            "inspect front-left/brake-hose", "inspect", FRONT, "front-left/brake-hose", jobs=["front-left/brake-hose"]
        ),
        "Inspect brake hose, front left corner",
    ),
    (
        task("inspect front-left", "inspect", FRONT, None, jobs=["front-left/brake-hose", "front-left/hub"]),
        "Inspect front left corner: brake hose, hub",
    ),
    (
        task("wheel-nut-torque front-left", "check", FRONT, "front-left/tyre"),
        "Torque the wheel nuts, front left corner",
    ),
    (
        task("weld-look front-left/lower-arm", "check", FRONT, "front-left/brake-hose"),
        "Check the weld: brake hose, front left corner",
    ),
    (task("routine spanner-check", "routine"), "Spanner check"),
    (task("routine renew front-left/brake-hose", "routine"), "Renew brake hose, front left corner"),
]


@pytest.mark.parametrize(("told", "said"), SAID, ids=[told.task for told, _ in SAID])
def test_a_task_is_said_as_in_a_bay(words: PlanWords, told: PlanTask, said: str) -> None:
    assert words.task(told) == said


def test_what_is_left_out_is_a_job_or_routine_work_by_its_name(words: PlanWords) -> None:
    assert words.group("front-left/brake-hose") == "Brake hose, front left corner"
    assert words.group("routine tools-counted") == "Tools counted"


def test_a_part_that_is_short_is_called_as_the_rate_table_has_it(words: PlanWords) -> None:
    short = LeftOut("rear-left/damper", "not in the van: damper-rear, no-such", "part", "next-service", [], [])
    assert words.reason(short) == "not in the van: rear damper, fits both sides; no-such"
    assert words.reason(replace(short, reason="not there: sets of stands")) == "not there: sets of stands"
    assert words.reason(replace(short, why="time", reason="no time for it")) == "no time for it"


def test_people_have_names_and_a_step_of_the_teams_own_its_own(words: PlanWords) -> None:
    assert words.people(["p-bodo", "p-nobody"]) == "Bodo, p-nobody"
    assert step_words("heat-shield-off", opens=True) == "Heat shield off"
    assert step_words("cool-box", opens=False) == "Put back: cool box"


@pytest.mark.parametrize(
    ("seconds", "said"),
    [
        (30, "30 s"),
        (45, "45 s"),
        (60, "1 min"),
        (75, "1 min 15 s"),
        (120, "2 min"),
        (135, "2 min"),
        (150, "3 min"),
        (270, "5 min"),
        (5700, "1 h 35"),
    ],
)
def test_times_are_said_as_people_say_them(seconds: int, said: str) -> None:
    assert lasts(seconds) == said
