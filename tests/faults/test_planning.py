"""F30: the queue changes while a service is planned; the solver is stopped, broken or killed. F35: a crowd asks."""

import json
import random
import threading
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import psutil
import pytest

from plan_rules import broken_rules
from shuntbook.flow import answers
from shuntbook.store import setups
from shuntbook.store.database import Store
from warmed import is_dead

from .invariants import check
from .phone import Phone
from .siege import Target, Watch
from .tally import some, tries
from .yard import EVENT, KEYS, PATIENCE_S, Simulated, Yard

PATH = f"/events/{EVENT}/cars/41/plan"
SERVICE = "C"
AT_ONCE_GOAL_S = 1.0
WAITED_S = 50.0
"""What a call may take on a machine that has much else to do; the goal is counted beside it."""
ASK_AGAIN_S = 0.25
"""Each answer meanwhile is a plan made at once: asked for without a pause, they take the solver's processor."""
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
            time.sleep(ASK_AGAIN_S)
        return found

    def note(self) -> str:
        late = sum(one > AT_ONCE_GOAL_S for one in self.took_s)
        return f"{len(self.took_s)} plans, the slowest after {max(self.took_s):.2f} s, {late} after more than 1 s"


def wrong_in(yard: Yard, plan: dict) -> list[str]:
    """Return what breaks a rule in a plan of the queue as it stands, judged from the JSON alone."""
    store = Store(yard.data)
    queue, setup = answers.queue(store, EVENT, "41"), setups.get(store.db, EVENT)
    assert plan["queue"] == queue.hash
    return broken_rules(plan, queue, setup)


def solver_of(yard: Yard) -> psutil.Process | None:
    """Return the solver's process below the yard's server, where it runs."""
    below = psutil.Process(yard.server.process.pid).children(recursive=True)
    return next((one for one in below if "shuntbook.web.solver_process" in one.cmdline()), None)


def await_solver(yard: Yard) -> psutil.Process:
    began = time.monotonic()
    while (found := solver_of(yard)) is None:
        assert time.monotonic() - began < PATIENCE_S
        time.sleep(0.02)
    return found


def kill(solver: psutil.Process) -> None:
    solver.kill()
    await_end(solver)


def await_end(solver: psutil.Process) -> None:
    """Wait until it is dead: gone, or not yet buried by who started it, or by the machine's first process."""
    began = time.monotonic()
    while not is_dead(solver):
        assert time.monotonic() - began < PATIENCE_S, "a solver without a server ends by itself"
        time.sleep(0.02)


def hit(phone: Simulated, *keys: str) -> None:
    for key in keys:
        phone.report(key, "broken")
    assert phone.round()


def test_f30_the_queue_changes_while_a_service_is_planned(yard: Yard) -> None:
    writer, asker, chance = yard.phone("p-toma"), Asker(yard), random.Random(300)
    stop, wrong = threading.Event(), []

    def write() -> None:
        for _ in range(tries(2, 40)):
            hit(writer, chance.choice([*KEYS, *MORE]))
            time.sleep(chance.uniform(0, 0.8))
        stop.set()

    thread = threading.Thread(target=write)
    thread.start()
    stale = 0
    while not stop.is_set():
        before, plan, after = asker.now(), asker.plan(), asker.now()
        time.sleep(ASK_AGAIN_S / 5)
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
    writer, asker, more = yard.phone("p-toma"), Asker(yard), some(MORE, 3)
    # Few hits: what the solver needs for many says nothing of who waits for it.
    hit(writer, *KEYS[: tries(2, len(KEYS))])
    assert wrong_in(yard, asker.plan()) == []
    hung = await_solver(yard)
    hung.suspend()
    for key in more:
        hit(writer, key)
        plan = asker.plan()
        assert (plan["by"], plan["proven"], plan["stale"]) == ("greedy", False, False), "it does not wait"
        assert wrong_in(yard, plan) == []
    hung.resume()
    assert wrong_in(yard, asker.until_solved()) == []
    yard.settle()
    check(yard, "F30", "solver that does not answer", tries=len(more), note=asker.note())


def test_f30_the_solver_is_killed_and_the_next_who_asks_has_it_again(make_yard: Callable[..., Yard]) -> None:
    yard, chance, times = make_yard(), random.Random(301), tries(2, 20)
    yard.server.start()
    writer, asker = yard.phone("p-toma"), Asker(yard)
    for turn in range(times):
        hit(writer, [*KEYS, *MORE][turn % len([*KEYS, *MORE])])
        assert wrong_in(yard, asker.plan()) == []
        time.sleep(chance.uniform(0, 0.5))
        kill(await_solver(yard))
        assert wrong_in(yard, asker.plan()) == []
    assert wrong_in(yard, asker.until_solved()) == []
    yard.settle()
    check(yard, "F30", "SIGKILL of the solver", tries=times, note=asker.note())


@pytest.mark.longer
def test_f30_a_solver_with_nothing_to_do_is_killed_and_the_next_plan_has_another(
    make_yard: Callable[..., Yard],
) -> None:
    yard = make_yard()
    yard.server.start()
    writer, asker = yard.phone("p-toma"), Asker(yard)
    hit(writer, KEYS[0])
    began = time.monotonic()
    while not asker.plan()["settled"]:
        assert time.monotonic() - began < 4 * PATIENCE_S
        time.sleep(ASK_AGAIN_S)
    idle = await_solver(yard)
    kill(idle)
    hit(writer, KEYS[1])
    # Asked for once: a solver found dead is no reason to do without its plan.
    assert wrong_in(yard, asker.plan()) == []
    began = time.monotonic()
    while (found := solver_of(yard)) is None or found.pid == idle.pid:
        assert time.monotonic() - began < PATIENCE_S
        time.sleep(0.02)
    yard.settle()
    check(yard, "F30", "SIGKILL of a solver with nothing to do", note=asker.note())


def test_f30_the_server_is_killed_while_its_solver_works(make_yard: Callable[..., Yard]) -> None:
    yard, chance, times = make_yard(), random.Random(301), tries(1, 8)
    yard.server.start()
    writer, asker = yard.phone("p-toma"), Asker(yard)
    for turn in range(times):
        hit(writer, [*KEYS, *MORE][turn % len([*KEYS, *MORE])])
        asker.plan()
        left = await_solver(yard)
        time.sleep(chance.uniform(0, 1))
        yard.server.kill_worker() if turn % 2 else yard.server.stop()
        await_end(left)
        yard.server.start()
        assert wrong_in(yard, asker.plan()) == []
    yard.settle()
    check(yard, "F30", "SIGKILL while the solver works", tries=times, note=asker.note())


@pytest.mark.longer
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


def test_f35_a_crowd_asks_for_the_plan_of_several_cars(make_yard: Callable[..., Yard]) -> None:
    yard = make_yard()
    yard.server.start()
    writer, mechanic, times = yard.phone("p-toma"), yard.phone("p-bodo"), tries(1, 3)
    path, cars = f"/events/{EVENT}/plan", ("41", "42")
    visits = [{"car": car, "service": "A"} for car in cars]
    # One mechanic: what the solver needs for many says nothing of who waits for it.
    bodies = [{"visits": visits, "mechanics": 1, "away": {"p-bodo": minute}} for minute in (0, 2)]
    target = Target(yard.server.port, mechanic.identity.token)
    worst_s, took_s = 0.0, []
    for turn in range(times):
        for car in cars:
            writer.report([*KEYS, *MORE][turn], "broken", car)
        assert writer.round()
        with Watch(target).watching() as watch, ThreadPoolExecutor(64) as crowd:
            asked = [json.dumps(bodies[place % len(bodies)]).encode() for place in range(64)]
            began = time.monotonic()
            answers_now = list(crowd.map(lambda body: plan_of(yard, mechanic, path, body), asked))
            took_s.append(time.monotonic() - began)
        worst_s = max(worst_s, *watch.worst_s.values())
        for place, found in enumerate(answers_now):
            assert [car["car"] for car in found["cars"]] == list(cars)
            assert not any(car["stale"] for car in found["cars"]), place
        began = time.monotonic()
        while (found := plan_of(yard, mechanic, path, asked[0]))["by"] != "solver":
            assert time.monotonic() - began < 4 * PATIENCE_S, "the solver's plan comes, too"
            time.sleep(ASK_AGAIN_S)
        for car in found["cars"]:
            store = Store(yard.data)
            assert broken_rules(car, answers.queue(store, EVENT, car["car"]), setups.get(store.db, EVENT)) == []
    yard.settle()
    note = f"slowest answer of health or sync meanwhile {worst_s:.1f} s; 64 plans in {max(took_s):.1f} s"
    check(yard, "F35", "64 plans of several cars asked for at once", tries=64 * times, note=note)


def plan_of(yard: Yard, phone: Simulated, path: str, body: bytes) -> dict:
    """Ask for a plan on a connection of its own, with a phone's patience where it must not matter."""
    asker = Phone(yard.folder / "asking", yard.server.port, phone.identity, EVENT)
    asker.timeout_s = PATIENCE_S
    status, data = asker.call("POST", path, body)
    assert status == 200, data
    return json.loads(data)
