"""F30: the queue changes while a service is planned; the solver is out of time, broken, or killed with its server."""

import json
import random
import threading
import time
from collections.abc import Callable
from pathlib import Path

from shuntbook.flow import answers, planning
from shuntbook.plan.check import faults
from shuntbook.plan.problem import GRID_S, Placed, Schedule
from shuntbook.store import setups
from shuntbook.store.database import Store

from .invariants import check
from .tally import tries
from .yard import EVENT, KEYS, PATIENCE_S, Simulated, Yard

PATH = f"/events/{EVENT}/cars/41/plan"
SERVICE = "C"
AT_ONCE_GOAL_S = 1.0
WAITED_S = 50.0
"""What a call may take on a machine that has much else to do; the goal is counted beside it."""
MORE = ["front-left/shock", "front-left/brake-caliper", "rear-left/wheel", "front-right/wheel", "rear-right/hub"]


class Asker:
    """A mechanic who asks for plans; keeps how long each took, and holds each against the rules of a valid one."""

    def __init__(self, yard: Yard) -> None:
        self.yard, self.phone = yard, yard.phone("p-bodo")
        self.phone.timeout_s = 60.0
        self.took_s: list[float] = []

    def plan(self) -> dict:
        began = time.monotonic()
        status, data = self.phone.call("POST", PATH, json.dumps({"service": SERVICE}).encode())
        self.took_s.append(time.monotonic() - began)
        assert status == 200, data
        assert self.took_s[-1] < WAITED_S
        return json.loads(data)

    def now(self) -> str:
        return self.phone.queue("41")["hash"]

    def until_solved(self) -> dict:
        """Ask until the solver's plan of the queue as it stands is there."""
        began = time.monotonic()
        while (found := self.plan())["by"] != "solver" or found["stale"]:
            assert time.monotonic() - began < 4 * PATIENCE_S
            time.sleep(0.3)
        return found

    def note(self) -> str:
        late = sum(one > AT_ONCE_GOAL_S for one in self.took_s)
        return f"{len(self.took_s)} plans, the slowest after {max(self.took_s):.2f} s, {late} after more than 1 s"


def wrong_in(yard: Yard, plan: dict) -> list[str]:
    """Return what breaks a rule in a plan of the queue as it stands, by the checker that knows no solver."""
    store = Store(yard.data)
    queue, setup = answers.queue(store, EVENT, "41"), setups.get(store.db, EVENT)
    assert plan["queue"] == queue["hash"]
    wish = planning.Wish(SERVICE)
    problem = planning._built(queue, setup, planning._service(setup, SERVICE), wish, 0).problem
    people = {worker.person: number for number, worker in enumerate(problem.workers)}
    free: dict[tuple, list[int]] = {}
    for number, task in enumerate(problem.tasks):
        free.setdefault((task.name, task.kind, task.job, task.step), []).append(number)
    placed = [
        Placed(
            free[one["task"], one["kind"], one["job"], one["step"]].pop(0),
            one["start_s"] // GRID_S,
            one["end_s"] // GRID_S,
            tuple(sorted(people[person] for person in one["people"])),
        )
        for one in plan["tasks"]
    ]
    return faults(problem, Schedule(tuple(placed), False, plan["by"]))


def hit(phone: Simulated, *keys: str) -> None:
    for key in keys:
        phone.report(key, "broken")
    assert phone.round()


def test_f30_the_queue_changes_while_a_service_is_planned(yard: Yard) -> None:
    writer, asker, chance = yard.phone("p-toma"), Asker(yard), random.Random(300)
    stop, wrong = threading.Event(), []

    def write() -> None:
        for _ in range(tries(10, 40)):
            hit(writer, chance.choice([*KEYS, *MORE]))
            time.sleep(chance.uniform(0, 0.8))
        stop.set()

    thread = threading.Thread(target=write)
    thread.start()
    stale = 0
    while not stop.is_set():
        before, plan, after = asker.now(), asker.plan(), asker.now()
        stale += plan["stale"]
        # In between it was this queue all the time: the plan is of it, or says that it is not.
        if before == after and plan["stale"] != (plan["queue"] != before):
            wrong.append((before, plan["queue"], plan["stale"]))
    thread.join()
    assert wrong == []
    plan = asker.plan()
    assert (plan["queue"], plan["stale"]) == (asker.now(), False), "nothing changes any more: this queue's plan"
    assert wrong_in(yard, plan) == []
    yard.settle()
    check(yard, "F30", "queue changed while a service is planned", tries=len(asker.took_s), note=asker.note())


def test_f30_the_solver_is_out_of_time(make_yard: Callable[..., Yard]) -> None:
    yard = make_yard()
    yard.server.start()
    writer, asker = yard.phone("p-toma"), Asker(yard)
    hit(writer, *KEYS, *MORE)
    plan = asker.plan()
    assert (plan["by"], plan["proven"], plan["queue"]) == ("greedy", False, asker.now()), "it does not wait"
    assert wrong_in(yard, plan) == []
    hit(writer, "rear-left/shock")
    plan = asker.plan()
    assert (plan["by"], plan["queue"], plan["stale"]) == ("greedy", asker.now(), False)
    assert wrong_in(yard, plan) == []
    yard.settle()
    check(yard, "F30", "solver out of time", tries=2, note=asker.note())


def test_f30_the_server_is_killed_while_its_solver_works(make_yard: Callable[..., Yard]) -> None:
    yard, chance, times = make_yard(), random.Random(301), tries(1, 8)
    yard.server.start()
    writer, asker = yard.phone("p-toma"), Asker(yard)
    hit(writer, *KEYS)
    for turn in range(times):
        assert asker.plan()["by"] == "greedy"
        time.sleep(chance.uniform(0, 2))
        yard.server.kill_worker() if turn % 2 else yard.server.stop()
        yard.server.start()
        plan = asker.plan()
        assert (plan["by"], plan["queue"]) == ("greedy", asker.now())
        assert wrong_in(yard, plan) == []
    yard.settle()
    check(yard, "F30", "SIGKILL while the solver works", tries=times, note=asker.note())


def test_f30_the_solver_gives_a_valid_plan_in_the_end_and_the_next_call_has_it(make_yard: Callable[..., Yard]) -> None:
    yard = make_yard()
    yard.server.start()
    writer, asker = yard.phone("p-toma"), Asker(yard)
    hit(writer, KEYS[0])
    began = time.monotonic()
    plan = asker.until_solved()
    assert wrong_in(yard, plan) == []
    yard.settle()
    took_s = time.monotonic() - began
    check(yard, "F30", "the solver's plan awaited", note=f"the solver's plan of a single hit after {took_s:.0f} s")


def test_f30_the_solver_does_not_even_start(make_yard: Callable[..., Yard], tmp_path: Path) -> None:
    broken = tmp_path / "broken" / "ortools"
    broken.mkdir(parents=True)
    (broken / "__init__.py").write_text('raise OSError("a library of the solver can not be loaded")\n')
    yard = make_yard()
    # A name of its own before all others on the path, whatever way the server is started.
    yard.server.wrapped = lambda command: [*command[:1], "-c", before_all(broken.parent), *command[1:]]
    yard.server.start()
    writer, asker = yard.phone("p-toma"), Asker(yard)
    hit(writer, *KEYS)
    for _ in range(tries(2, 6)):
        plan = asker.plan()
        assert (plan["by"], plan["queue"], plan["stale"]) == ("greedy", asker.now(), False)
        assert wrong_in(yard, plan) == []
    assert "the solver failed; the plan made at once stands" in yard.server.log.read_text()
    yard.settle()
    check(yard, "F30", "solver that can not start", tries=len(asker.took_s), note=asker.note())


def before_all(folder: Path) -> str:
    """Return a program that runs the rest of its words with a folder first on Python's path, children included."""
    return (
        "import os, sys; "
        f"os.environ['PYTHONPATH'] = {str(folder)!r} + os.pathsep + os.environ.get('PYTHONPATH', ''); "
        "os.execv(sys.executable, [sys.executable, *sys.argv[1:]])"
    )
