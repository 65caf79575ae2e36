"""A French phone speaks French unasked: no word of the English headings and buttons is left on its screens."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from phones import SIZE, Phone
from playwright.sync_api import Browser, Page, expect
from server import Server, running, with_sample

from longer import some

WORDS = Path(__file__).resolve().parents[2] / "pwa" / "src" / "view" / "words"
SCREENS = {
    "p-toma": ["log", "round", "turn", "retired", "reports", "service", "arrival", "me", "about", "looks", "briefing"],
    "p-bodo": [
        "queue",
        "job/front-right/tyre",
        "plan",
        "team",
        "readings",
        "lives",
        "documents",
        "incidents",
        "board",
        "handover",
        "passes",
    ],
    "p-vera": ["costs", "statement", "season", "walk", "setup", "aside"],
}


def english() -> set[str]:
    """Sentences and labels of the English word objects that French has other words for."""
    said = r'"((?:[^"\\]|\\.)*)"'
    found = {one for file in WORDS.glob("*.ts") for one in re.findall(said, file.read_text("utf8"))}
    french = {one for file in (WORDS / "fr").glob("*.ts") for one in re.findall(said, file.read_text("utf8"))}
    return {one for one in found - french if " " in one}


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    yield from running(with_sample(tmp_path_factory.mktemp("sample") / "data"))


@pytest.fixture(scope="module")
def french_phone(browser: Browser) -> Callable[[], Phone]:
    return lambda: Phone(
        browser.new_context(viewport=SIZE, timezone_id="Europe/Vienna", locale="fr-FR", service_workers="block")
    )


def lines(page: Page) -> set[str]:
    return {line.strip() for line in page.locator("body").inner_text().splitlines()}


def test_screens_of_each_role_hold_no_english(sample: Server, french_phone: Callable[[], Phone]) -> None:
    known = english()
    assert {"Log a hit", "We have stopped", "Inspect first"} <= known
    for person, screens in SCREENS.items():
        phone = french_phone()
        page = joined(phone, sample, person)
        for screen in some(screens, 14):
            page.evaluate("address => { location.hash = address; }", f"#/{screen}")
            page.get_by_role("heading", level=1).first.wait_for()
            expect(page.get_by_text("Chargement")).to_have_count(0)
            left = lines(page) & known
            assert not left, f"{screen}: {left}"
        assert phone.complaints == []
        phone.close()


def joined(phone: Phone, server: Server, person: str) -> Page:
    page = phone.page
    page.goto(server.link(person))
    pick = page.get_by_role("button", name="Voiture 41")
    pick.or_(page.get_by_role("combobox")).first.wait_for()
    if pick.count():
        pick.click()
    page.get_by_role("heading", level=1).first.wait_for()
    expect(page.locator("html")).to_have_attribute("lang", "fr")
    return page


@pytest.mark.longer
def test_a_hit_is_logged_in_french_and_its_numbers_have_commas(
    sample: Server, french_phone: Callable[[], Phone]
) -> None:
    phone = french_phone()
    page = joined(phone, sample, "p-toma")
    page.get_by_role("button", name="Avant gauche").first.click()
    page.get_by_label("Jante", exact=True).check()
    page.get_by_role("button", name="Enregistrer", exact=True).click()
    page.get_by_role("heading", name="Gardé sur ce téléphone").wait_for()
    page.get_by_role("link", name="Rapports").click()
    page.get_by_text(re.compile(r"km \d+,\d")).first.wait_for()
    assert phone.complaints == []
    phone.close()
