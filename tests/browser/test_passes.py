"""Inspections that do not count: a folder of 0.1 is opened, its manager is told once, the page says why."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from looking import is_as_it_should_be
from phones import Phone
from playwright.sync_api import expect
from server import Server, running

from release_0_1_0 import unzipped

TITLE = "Inspections that do not count"
BANNER = "Inspections of version 0.1"


@pytest.fixture
def first_release(tmp_path: Path) -> Iterator[Server]:
    """A server over the data folder that release 0.1.0 left."""
    yield from running(Server(unzipped("data", tmp_path / "data")))


@pytest.mark.longer
def test_the_manager_is_told_once_and_led_to_which_and_why(
    first_release: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    page = phone.join(first_release, "p-vera")
    page.get_by_text(BANNER).wait_for()
    page.get_by_role("button", name="Show 41: 1 inspection").click()
    page.get_by_role("heading", name=TITLE).wait_for()
    page.get_by_role("link", name="Front right corner: Brake hose").wait_for()
    page.get_by_text("counted in version 0.1").wait_for()
    page.get_by_text("None of its checks is OK.").wait_for()
    expect(page.get_by_text("Not covered: report by")).to_contain_text("repair by Bodo")
    expect(page.get_by_text(BANNER)).to_have_count(0)
    is_as_it_should_be(phone, "inspections that do not count")
    page.get_by_role("button", name="Why").click()
    page.get_by_role("link", name=TITLE).click()
    expect(page.get_by_role("dialog")).to_have_count(0)
    # Kept: the page is read without the server, and nobody is told again.
    page.evaluate("location.hash = '#/queue'")
    page.get_by_role("heading", name="Queue").wait_for()
    first_release.stop()
    page.evaluate("location.hash = '#/passes'")
    page.get_by_text("None of its checks is OK.").wait_for()
    expect(page.get_by_text(BANNER)).to_have_count(0)


@pytest.mark.longer
def test_an_inspector_is_not_told_and_finds_it_under_more(
    first_release: Server, new_phone: Callable[[], Phone]
) -> None:
    page = new_phone().join(first_release, "p-odil")
    page.evaluate("location.hash = '#/more'")
    page.get_by_role("link", name=TITLE).click()
    page.get_by_text("None of its checks is OK.").wait_for()
    expect(page.get_by_text(BANNER)).to_have_count(0)


@pytest.mark.longer
def test_who_sits_in_the_car_is_told_whose_page_it_is(server: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.join(server, "p-toma")
    page.evaluate("location.hash = '#/more'")
    page.get_by_role("link", name="Log a hit").or_(page.get_by_role("link", name="Log")).first.wait_for()
    expect(page.get_by_role("link", name=TITLE)).to_have_count(0)
