"""The whole story with a keyboard alone: a hit logged, repaired, looked at, signed and costed, no pointer anywhere."""

from collections.abc import Callable

import pytest
from crew import PIN, Member
from keys import Keyboard
from phones import Phone
from playwright.sync_api import expect
from server import Server


def at_keys(team: Server, new_phone: Callable[[], Phone], person: str) -> tuple[Member, Keyboard]:
    """Give a person a phone with a keyboard at it; joining is not part of the story."""
    phone = new_phone()
    phone.join(team, person)
    return Member(team, phone, person, "41"), Keyboard(phone)


@pytest.mark.longer
@pytest.mark.only_in("chromium", "what a screen reader hears is read over DevTools")
def test_the_story_goes_from_hit_to_costs_by_keyboard(team: Server, new_phone: Callable[[], Phone]) -> None:
    toma, keys = at_keys(team, new_phone, "p-toma")
    logs_a_hose(keys)
    toma.sees("Kept on this phone")
    toma.wrote("report.filed")
    assert keys.faults == []

    bodo, keys = at_keys(team, new_phone, "p-bodo")
    repairs_it(bodo, keys)
    bodo.wrote("job.started")
    bodo.wrote("job.finished")
    assert keys.faults == []

    odil, keys = at_keys(team, new_phone, "p-odil")
    signs_it(odil, keys)
    odil.wrote("inspection.passed")
    assert keys.faults == []

    vera, keys = at_keys(team, new_phone, "p-vera")
    keys.press("link", "Costs")
    vera.page.get_by_role("heading", name="Costs", level=1).wait_for()
    vera.page.locator(".totals").wait_for()
    for _ in range(12):
        vera.page.keyboard.press("Tab")
        keys.look()
    assert keys.faults == []


def logs_a_hose(keys: Keyboard) -> None:
    keys.press("button", "Front left")
    keys.press("button", "More parts")
    keys.press("checkbox", "Brake hose", "Space")
    keys.tab_to("radio", "")
    condition = keys.page.get_by_label("Leaking", exact=True)
    for _ in range(8):
        if condition.is_checked():
            break
        keys.page.keyboard.press("ArrowRight")
        keys.look()
    expect(condition).to_be_checked()
    keys.press("button", "Save")


def repairs_it(bodo: Member, keys: Keyboard) -> None:
    keys.page.get_by_role("link", name="Open job: Front left corner: Brake hose").wait_for()
    keys.press("link", "Open job: Front left corner: Brake hose")
    keys.page.get_by_role("heading", level=1, name="Brake hose").wait_for()
    keys.press("button", "Start")
    bodo.sees("Bodo, from")
    keys.press("button", "Finish …")
    keys.page.get_by_label("Timed", exact=True).wait_for()
    keys.press("button", "Finish")
    bodo.sees("Saved: finished.")


def signs_it(odil: Member, keys: Keyboard) -> None:
    keys.page.get_by_role("link", name="Open job: Front left corner: Brake hose").wait_for()
    keys.press("link", "Open job: Front left corner: Brake hose")
    keys.page.get_by_role("heading", level=1, name="Brake hose").wait_for()
    keys.press("link", "Inspect")
    keys.page.get_by_label("New PIN").wait_for()
    for _ in range(keys.page.get_by_label("OK", exact=True).count()):
        keys.press("radio", "OK", "Space")
    for role, name in [("textbox", "New PIN"), ("textbox", "The same once more")]:
        keys.tab_to(role, name)
        keys.page.keyboard.type(PIN)
    keys.press("button", "Sign: 1 passed")
    odil.sees("Signed: 1 passed.")
