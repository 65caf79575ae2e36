"""The planner's queue: what is asked twice is solved once, and what was asked of an older queue is forgotten."""

import threading
from collections.abc import Iterator
from dataclasses import dataclass, field

import pytest
from solving_here import Here

from phone import EVENT
from shuntbook.kit.errors import NotPossible
from shuntbook.plan.choose import Solve
from shuntbook.plan.solve import Effort
from shuntbook.store.database import Store
from shuntbook.web import plan_queue
from shuntbook.web.live import News
from shuntbook.web.plan_questions import Hashes
from shuntbook.web.plan_queue import KEPT, Planner

DEADLINE_S = 300
"""Guards against hanging; judges no speed."""


@dataclass
class Yard:
    """What the questions of a test share: the queues as they stand, what was done, and when the solver may go on."""

    now: Hashes = ("a",)
    done: list[str] = field(default_factory=list)
    go_on: threading.Event = field(default_factory=threading.Event)


@dataclass(frozen=True)
class Asked:
    """A question of a test; a plan is a text: what made it, and of which queue."""

    name: str
    yard: Yard = field(compare=False)

    def hashes(self, store: Store) -> Hashes:
        return self.yard.now

    def at_once(self, store: Store) -> str:
        if self.name == "nonsense":
            raise NotPossible("name each car once")
        self.yard.done.append(f"at once {self.name}")
        return f"greedy {self.yard.now[0]}"

    def solved(self, store: Store, solver: Solve) -> Iterator[str]:
        if self.name == "nonsense":
            raise NotPossible("name each car once")
        self.yard.done.append(f"solved {self.name}")
        of = self.yard.now[0]
        assert self.yard.go_on.wait(DEADLINE_S)
        yield f"solver {of}"

    def made_of(self, plan: str) -> Hashes:
        return (plan.split()[1],)

    def marked(self, plan: str, now: Hashes) -> str:
        return plan if self.made_of(plan) == now else f"{plan} stale"


@pytest.fixture
def planner(store: Store) -> Iterator[Planner]:
    made = Planner(store, News(dict))
    yield made
    made.stop()


def until_idle(planner: Planner, question: Asked) -> None:
    key = (question, question.yard.now)
    planner._under_way[key].result(DEADLINE_S)


def test_the_same_question_is_made_once_and_solved_once_whoever_asks_how_often(planner: Planner) -> None:
    yard = Yard()
    for _ in range(5):
        assert planner.plan(Asked("one", yard)) == "greedy a"
    yard.go_on.set()
    until_idle(planner, Asked("one", yard))
    assert planner.plan(Asked("one", yard)) == "solver a"
    assert yard.done.count("at once one") == 1
    assert yard.done.count("solved one") == 1


def test_what_was_solved_of_an_older_queue_is_no_answer_to_the_newer_one(planner: Planner) -> None:
    yard = Yard()
    assert planner.plan(Asked("one", yard)) == "greedy a"
    waiting = planner._under_way[Asked("one", yard), ("a",)]
    yard.now = ("b",)
    yard.go_on.set()
    waiting.result(DEADLINE_S)
    assert (Asked("one", yard), ("a",)) not in planner._best
    assert planner.plan(Asked("one", yard)) in ("greedy b", "solver b")


def test_no_more_questions_are_kept_than_a_day_has(planner: Planner, monkeypatch: pytest.MonkeyPatch) -> None:
    yard = Yard()
    monkeypatch.setattr(plan_queue, "WAIT_S", 0)
    for place in range(KEPT + 10):
        planner.plan(Asked(f"q{place}", yard))
    assert len(planner._under_way) <= KEPT
    assert len(planner._best) <= KEPT
    yard.go_on.set()


def test_a_question_that_makes_no_sense_is_refused_and_leaves_nothing_behind(planner: Planner) -> None:
    yard = Yard()
    with pytest.raises(NotPossible, match="name each car once"):
        planner.plan(Asked("nonsense", yard))
    planner._pool.submit(lambda: None).result(DEADLINE_S)
    assert not planner._under_way
    assert not planner._best


def test_the_plan_of_several_cars_is_there_at_once_and_then_the_solvers(phone) -> None:
    mechanic = phone("mechanic")
    mechanic.client.application.extensions["shuntbook.planner"].solver = Here(Effort(deterministic_s=0.2))
    body = {"visits": [{"car": "41", "service": "A"}, {"car": "42", "service": "A"}], "mechanics": 2}
    body["on_time_percent"] = 0

    def ask(more: dict | None = None):
        return mechanic.client.post(f"/api/v1/events/{EVENT}/plan", json=more or body, headers=mechanic.headers)

    first = ask()
    assert first.status_code == 200, first.text
    assert [car["car"] for car in first.get_json()["cars"]] == ["41", "42"]
    planner = mechanic.client.application.extensions["shuntbook.planner"]
    for future in list(planner._under_way.values()):
        future.result(DEADLINE_S)
    found = ask().get_json()
    assert found["by"] == "solver"
    assert not any(car["stale"] for car in found["cars"])
    twice = {"visits": [{"car": "41", "service": "A"}, {"car": "41", "service": "B"}]}
    assert ask(twice).status_code == 409
    assert ask({"visits": [{"car": "41", "service": "Z"}]}).status_code == 404
