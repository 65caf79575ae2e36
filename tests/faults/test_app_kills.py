"""F6, F7 and F13 on the real app: its browser killed, paused or closed, and two tabs of which the sending one dies."""

import json
import random
import signal
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from functools import partial

import pytest
from phones import PocketPhone
from playwright.sync_api import Error, Page, Request

from .invariants import check
from .pocket import Pocket
from .proxy import NOTHING, REFUSED, Fault, Rule, no_api
from .proxy import Request as Asked
from .tally import tries
from .yard import Yard

Browsers = Callable[..., PocketPhone]
TAKEOVER_GOAL_S = 5.0


def held_reply() -> tuple[Rule, threading.Event, threading.Event]:
    """Return a rule that holds replies to entries, an event that the server has some, one that lets replies go."""
    arrived, let_go = threading.Event(), threading.Event()

    def rule(request: Asked) -> Fault:
        if not request.is_sync or not request.entries:
            return NOTHING
        arrived.set()
        return Fault(hold=let_go)

    return rule, arrived, let_go


def kill_at(pocket: Pocket, phone: PocketPhone, point: str, chance: random.Random) -> None:
    """Log a hit, and kill the browser once it is saved, while the answer is on its way, or as it comes in."""
    yard = pocket.yard
    rule, arrived, let_go = held_reply()
    yard.proxy.rule = no_api if point == "saved" else rule
    pocket.log_hit()
    if point != "saved":
        assert arrived.wait(60)
        time.sleep(chance.uniform(0, 0.05))
    if point == "answered":
        let_go.set()
        time.sleep(chance.uniform(0, 0.03))
    phone.kill()
    let_go.set()
    yard.proxy.heal()


def test_f06_the_browser_is_killed_between_save_send_answer_and_mark_sent(yard: Yard, own_browser: Browsers) -> None:
    phone = own_browser()
    pocket, chance, times = Pocket(yard, phone), random.Random(6), tries(3, 24)
    recovered_s = []
    for turn in range(times):
        kill_at(pocket, phone, ("saved", "sent", "answered")[turn % 3], chance)
        pocket.open_again()
        recovered_s.append(yard.settle())
        assert pocket.sent() == turn + 1
    check(yard, "F6", "browser killed: saved, sent, answered", tries=times, recovered_s=recovered_s)


@pytest.mark.parametrize("way", ["paused", pytest.param("left", marks=pytest.mark.longer)])
def test_f07_the_app_is_paused_or_left_during_a_try(yard: Yard, own_browser: Browsers, way: str) -> None:
    pocket, times = Pocket(yard, own_browser()), tries(1, 6)
    recovered_s = []
    for _ in range(times):
        rule, arrived, let_go = held_reply()
        yard.proxy.rule = rule
        entry = pocket.log_hit()
        assert arrived.wait(60)
        if way == "paused":
            pocket.signal_all(signal.SIGSTOP)
        else:
            pocket.page.goto("about:blank")
        yard.proxy.rule = lambda request: REFUSED
        yard.proxy.cut_open()  # the answer is lost, and its connection with it
        let_go.set()
        time.sleep(0.5)
        yard.proxy.heal()
        if way == "paused":
            pocket.signal_all(signal.SIGCONT)
        else:
            pocket.page.goto(f"{yard.proxy.url}/#/me")
        recovered_s.append(yard.settle())
        assert pocket.own()[entry["id"]][1] == "sent"
    check(yard, "F7", "app paused or left while it sends", tries=times, recovered_s=recovered_s)


NO_LOCKS = "Object.defineProperty(Navigator.prototype, 'locks', { value: undefined });"


@pytest.mark.parametrize(
    "locks", [True, pytest.param(False, marks=pytest.mark.longer)], ids=["with Web Locks", "without"]
)
def test_f13_of_two_tabs_the_sending_one_is_killed(yard: Yard, own_browser: Browsers, locks: bool) -> None:
    phone = own_browser()
    if not locks:
        phone.context.add_init_script(NO_LOCKS)
    pocket, recovered_s = Pocket(yard, phone), []
    assert pocket.page.evaluate("Boolean(navigator.locks)") is locks
    for _ in range(tries(1, 6)):
        rule, arrived, let_go = held_reply()
        yard.proxy.rule = rule
        tabs = [pocket.page, phone.context.new_page()]
        tabs[1].goto(f"{yard.proxy.url}/#/me")
        tabs[1].get_by_role("heading", level=1).first.wait_for()
        senders = senders_among(tabs)
        pocket.log_hit()
        assert arrived.wait(60)
        yard.proxy.rule = lambda request: NOTHING
        while not senders:
            tabs[0].wait_for_timeout(20)  # calls are heard of while the browser is waited for
        sending = senders[-1]  # whichever tab heard of it first, not always the one where it was written
        (phone.page,) = [one for one in tabs if one is not sending]
        crash(sending)
        recovered_s.append(yard.settle())
        let_go.set()
        sending.close()
    note = f"taken over in {max(recovered_s):.1f} s at most, {'with' if locks else 'without'} Web Locks"
    check(yard, "F13", "the sending tab killed", tries=len(recovered_s), recovered_s=recovered_s, note=note)


def senders_among(tabs: list[Page]) -> list[Page]:
    """Return a list that grows by the tab that calls the server with entries, at each such call."""
    senders: list[Page] = []

    def hear(request: Request, page: Page) -> None:
        if request.url.endswith("/api/v1/sync") and json.loads(request.post_data or "{}").get("entries"):
            senders.append(page)

    for tab in tabs:
        tab.on("request", partial(lambda page, request: hear(request, page), tab))
    return senders


def crash(page: Page) -> None:
    """Kill a tab's own process."""
    with suppress(Error):  # there is nobody left to answer
        page.goto("chrome://crash", timeout=10_000)
