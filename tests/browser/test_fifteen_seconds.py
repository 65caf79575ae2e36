"""What a crew logs most, tap by tap: few taps, no typing; docs/in-the-hand.md says what is counted here."""

from collections.abc import Callable
from pathlib import Path

import pytest
from hand import DISTRACTED, Counted, modelled_s
from phones import Phone, wait_until
from playwright.sync_api import Dialog, Locator, Page, expect
from server import Server

DOC = Path(__file__).resolve().parents[2] / "docs" / "in-the-hand.md"
MOST_TAPS = 4
MOST_S = 15.0


def button(page: Page, name: str) -> Locator:
    return page.get_by_role("button", name=name, exact=True)


def chip(page: Page, name: str) -> Locator:
    return page.get_by_label(name, exact=True)


def save(page: Page, hand: Counted) -> None:
    hand.tap(button(page, "Save"), "is it right")
    page.get_by_role("heading", name="Kept on this phone").wait_for()


def bent_wheel(page: Page, hand: Counted) -> None:
    hand.tap(page.get_by_role("button", name="Front left").first, "which place")
    hand.tap(chip(page, "Wheel rim"), "which part")
    expect(chip(page, "Bent")).to_be_checked()  # what is usual stands there already
    save(page, hand)


def other_side(page: Page, hand: Counted) -> None:
    hand.tap(button(page, "Same again, other side"), "the other side too")
    save(page, hand)


def cracked_in_the_middle(page: Page, hand: Counted) -> None:
    hand.tap(page.get_by_role("button", name="Rear right").first, "which place")
    hand.tap(chip(page, "Wheel rim"), "which part")
    hand.tap(chip(page, "Cracked"), "how bad")
    hand.tap(page.get_by_role("button", name="Save: middle in SS"), "where in the stage")
    page.get_by_role("heading", name="Kept on this phone").wait_for()


def puncture(page: Page, hand: Counted) -> None:
    hand.tap(page.get_by_role("button", name="Rear left").first, "which place")
    hand.tap(chip(page, "Tyre"), "which part")
    expect(chip(page, "Flat")).to_be_checked()
    save(page, hand)


def long_pedal(page: Page, hand: Counted) -> None:
    hand.tap(button(page, "No place, only something noticed"), "no place")
    hand.tap(page.get_by_label("Brake pedal long"), "what is noticed")
    save(page, hand)


def nothing_seen(page: Page, hand: Counted) -> None:
    hand.tap(page.get_by_role("button", name="Nothing seen, walked round"), "seat or walked round")
    page.get_by_text("Saved: nothing seen on").wait_for()


Task = Callable[[Page, Counted], None]
TASKS: dict[str, Task] = {
    "a wheel bent at a corner": bent_wheel,
    "the same on the other side, from there": other_side,
    "a wheel cracked, in the middle of the stage": cracked_in_the_middle,
    "a tyre flat": puncture,
    "brake pedal long": long_pedal,
    "nothing seen, walked round": nothing_seen,
}


def reopen(phone: Phone, server: Server) -> Page:
    """Open the app as a co-driver does, by no address: it is on the log, with the stage that was just driven."""
    # Loaded again where it is: by way of an empty page, the browser starts a process.
    phone.page.evaluate("address => history.replaceState(null, '', address)", server.url)
    phone.page.reload()
    phone.page.get_by_role("heading", name="Log a hit").wait_for()
    return phone.page


def do_all(phone: Phone, server: Server) -> dict[str, Counted]:
    hands = {}
    for name, task in TASKS.items():
        if task is nothing_seen:
            phone.take_car("42")  # on the other one a hit was just reported: nobody is asked whether nothing was seen
        page = phone.page if task is other_side else reopen(phone, server)
        hands[name] = Counted(page)
        task(page, hands[name])
    return hands


def row(name: str, hand: Counted) -> str:
    thoughts = ", ".join(hand.thoughts)
    seconds = hand.seconds()
    return f"| {name} | {hand.taps} | {hand.swipes} | {thoughts} | {seconds:.1f} | {seconds * DISTRACTED:.1f} |"


@pytest.mark.only_in("chromium", "the table counts swipes by its heights of lines")
def test_the_commonest_hit_takes_four_taps_at_most_and_all_is_as_the_table_says(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    toma = new_phone()
    toma.join(empty_server, "p-toma")
    toma.page.get_by_role("button", name="Skip").click()  # the cards of the first day, once on a phone
    hands = do_all(toma, empty_server)
    commonest = hands["a wheel bent at a corner"]
    assert commonest.taps <= MOST_TAPS
    assert commonest.seconds() * DISTRACTED <= MOST_S
    assert [hand.keys for hand in hands.values()] == [0] * len(TASKS), "nothing is typed"
    told = [line for line in DOC.read_text().splitlines() if line.split(" | ")[0].removeprefix("| ") in TASKS]
    assert told == [row(name, hand) for name, hand in hands.items()]

    wait_until(toma.page, lambda: len(empty_server.entries()) == len(TASKS))
    said = [one["data"] for one in empty_server.entries("41", "report.filed")]
    assert {one["where"] for one in said} == {"stage"}
    assert [(one.get("zone"), one["findings"], one["symptoms"]) for one in said] == [
        ("front-left", [{"component": "wheel", "condition": "bent"}], []),
        ("front-right", [{"component": "wheel", "condition": "bent"}], []),
        ("rear-right", [{"component": "wheel", "condition": "cracked"}], []),
        ("rear-left", [{"component": "tyre", "condition": "flat"}], []),
        (None, [], ["long-pedal"]),
    ]
    assert said[2]["km"] == 4.7  # half of SS1's 9.4 km
    assert len(empty_server.entries("42", "stage.nothing_seen")) == 1
    takes_back(toma, empty_server)


def takes_back(phone: Phone, server: Server) -> None:
    """What was tapped by mistake goes with one tap more, and nobody is asked whether they are sure."""
    page, before = phone.page, len(server.entries())
    asked: list[str] = []

    def dismiss(dialog: Dialog) -> None:
        asked.append(dialog.message)
        dialog.dismiss()

    page.on("dialog", dismiss)
    button(page, "Undo").click()
    page.get_by_role("button", name="Front left").first.click()
    button(page, "Save").click()
    button(page, "Undo: withdraw it").click()
    page.get_by_role("heading", name="Withdrawn").wait_for()
    wait_until(page, lambda: len(server.entries()) == before + 3)
    last = server.entries()[before:]
    assert [one["kind"] for one in last] == ["entry.voided", "report.filed", "report.withdrawn"]
    assert asked == []


def test_the_model_is_the_published_one() -> None:
    """A tap is P + B + B = 1.30 s and a thought 1.35 s (Card, Moran, Newell 1980; Kieras for B; values from memory)."""
    assert modelled_s(1, 0) == pytest.approx(1.30)
    assert modelled_s(4, 3) == pytest.approx(4 * 1.30 + 3 * 1.35)
    assert modelled_s(0, 0, swipes=2) == pytest.approx(2.20)
    assert modelled_s(0, 0, keys=10, homings=2) == pytest.approx(3.60)
