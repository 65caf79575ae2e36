"""What the season teaches, on the manager's phone: the server's numbers, minutes put in force, a list to take along."""

import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from bench.invented_season import season
from engines import emulates
from looking import LAPTOP, axe_finds, promises, small_targets, too_wide
from phones import SIZE, Phone, wait_until
from playwright.sync_api import Locator, Page, expect
from server import Server, running

from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.store.database import Store

CAR = "21"
SECTIONS = {
    "Damage": "Damage per event",
    "Minutes": "Estimate against actual minutes",
    "Better rates": "Better rates",
    "What to carry": "What to carry",
    "Shopping list": "Shopping list",
}


@pytest.fixture(scope="module")
def loaded(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with four invented events, one rate table for all."""
    folder: Path = tmp_path_factory.mktemp("season")
    store = Store(folder / "data")
    for path in season(folder / "events", 4, 0):
        load(store, path, now())
    store.close()
    return folder / "data"


@pytest.fixture
def held(loaded: Path, tmp_path: Path) -> Iterator[Server]:
    """A server with the four events; what a test puts in force is in force for itself alone."""
    yield from running(Server(shutil.copytree(loaded, tmp_path / "data")))


@pytest.fixture
def desk(held: Server) -> str:
    """A token of the manager's."""
    return held.token("p-desk")


@pytest.fixture
def manager(held: Server, new_phone: Callable[[], Phone]) -> Phone:
    phone = new_phone()
    phone.join(held, "p-desk", CAR)
    return phone


@pytest.fixture
def event(held: Server, desk: str) -> str:
    """The event that a phone shows where none was chosen."""
    return held.get("/setup", desk)["events"][0]["event"]


def shows(phone: Phone, section: str) -> Locator:
    """Come from the costs screen, choose a section, and return it once it is there."""
    phone.page.set_viewport_size(SIZE)
    page = phone.show("costs")
    page.get_by_role("link", name="Season").click()
    page.get_by_role("heading", level=1, name="Season").wait_for()
    page.get_by_role("radio", name=section, exact=True).check()
    found = page.get_by_role("region", name=SECTIONS[section], exact=True)
    found.wait_for()
    return found


def unfold(found: Locator) -> None:
    found.locator("details").evaluate_all("all => { for (const one of all) one.open = true; }")


def cells(found: Locator, table: str) -> list[list[str]]:
    """Return the numbers of a table, row by row, without what sets thousands apart."""
    bodies = found.get_by_role("table", name=table, exact=True).locator("tbody")
    bodies.first.wait_for()
    return [[text.replace(",", "") for text in body.locator("td").all_inner_texts()] for body in bodies.all()]


def plain(value: float) -> str:
    """Return a number as JSON writes it: 12 for 12.0."""
    return str(int(value)) if value == int(value) else str(value)


@pytest.mark.longer
def test_damage_and_minutes_are_the_servers(held: Server, manager: Phone, desk: str) -> None:
    said = held.get("/season", desk)
    assert len(said["events"]) == 4
    found = shows(manager, "Damage")
    unfold(found)
    assert cells(found, "Damage in EUR, before tax") == [[one["estimate"], one["actual"]] for one in said["events"]]
    assert cells(found, "Per stage km, in EUR") == [
        [plain(one["stage_km"]), one["per_stage_km"]["estimate"], one["per_stage_km"]["actual"]]
        for one in said["events"]
    ]
    assert cells(found, "What it was") == [
        [str(one["incidents"]), str(one["jobs"]), str(one["safety_critical"])] for one in said["events"]
    ]
    found = shows(manager, "Minutes")
    unfold(found)
    assert cells(found, "Minutes per operation") == [
        [
            plain(one["timed"]),
            plain(one["estimate_minutes"]),
            plain(one["actual_minutes"]),
            f"{plain(one['least_minutes'])} – {plain(one['most_minutes'])}",
        ]
        for one in said["operations"]
    ]


@pytest.mark.longer
def test_a_laptop_has_each_event_in_one_line(held: Server, manager: Phone, desk: str) -> None:
    said = held.get("/season", desk)
    found = shows(manager, "Damage")
    manager.page.set_viewport_size(LAPTOP)
    table = found.get_by_role("table", name="Damage in EUR, before tax", exact=True)
    expect(table.get_by_role("rowheader")).to_have_text([one["name"] for one in said["events"]])
    expect(table.get_by_role("columnheader")).to_have_count(9)
    assert cells(found, "Damage in EUR, before tax") == [
        [
            *(one["estimate"], one["actual"], plain(one["stage_km"])),
            *(one["per_stage_km"]["estimate"], one["per_stage_km"]["actual"]),
            *(str(one["incidents"]), str(one["jobs"]), str(one["safety_critical"])),
        ]
        for one in said["events"]
    ]
    assert axe_finds(manager.page) + too_wide(manager.page) == []


@pytest.mark.longer
def test_where_only_counts_are_shown_no_cover_is_asked_for(server: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    phone.join(server, "p-vera")
    page = phone.show("season")
    for section in ("What to carry", "Shopping list"):
        page.get_by_role("radio", name=section, exact=True).check()
        page.get_by_text("Counts only").wait_for()
        expect(page.get_by_role("radio", name="95 %", exact=True)).to_have_count(0)


@pytest.mark.longer
def test_what_to_carry_follows_cover_km_and_cars(held: Server, manager: Phone, desk: str, event: str) -> None:
    page, found = manager.page, shows(manager, "What to carry")
    said = held.get(f"/events/{event}/spares", desk)
    expect(page.get_by_label("Timed km of the event")).to_have_value(plain(said["km"]))
    expect(page.get_by_label("Cars", exact=True)).to_have_value(str(said["cars"]))
    for cover in (95, 99):
        page.get_by_role("radio", name=f"{cover} %", exact=True).check()
        found.get_by_text(f"lasts for {cover} of 100").wait_for()
        assert cells(found, "Parts") == carried(said, cover)
    assert any(one["bunched"] for one in said["parts"]) == (found.get_by_text("Came in bunches").count() > 0)

    page.get_by_label("Timed km of the event").fill("0")
    page.get_by_role("button", name="Calculate again").click()
    page.get_by_text("Write the km as a number above 0").wait_for()
    page.get_by_label("Timed km of the event").fill("200,5")
    page.get_by_label("Cars", exact=True).fill("3")
    page.get_by_role("button", name="Calculate again").click()
    found.get_by_text("For 200.5 timed km with 3 cars.").wait_for()
    longer = held.get(f"/events/{event}/spares?km=200.5&cars=3&cover=99", desk)
    assert cells(found, "Parts") == carried(longer, 99)
    assert longer["parts"] != said["parts"]

    # The shopping list is for the same event and cover, and goes to the clipboard as text.
    items = longer["shopping"]["items"]
    page.get_by_role("radio", name="Shopping list", exact=True).check()
    page.get_by_role("region", name="Shopping list").wait_for()
    assert items
    expect(page.locator(".to-buy li")).to_have_count(len(items))
    manager.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.get_by_role("button", name="Copy").click()
    page.get_by_text("Copied.").wait_for()
    lines = page.evaluate("navigator.clipboard.readText()").split("\n")
    assert [line.split(" × ")[0] for line in lines[1:-1]] == [plain(one["qty"]) for one in items]
    assert lines[-1].replace(",", "") == f"Total: {longer['shopping']['cost']} EUR"


def carried(said: dict, cover: int) -> list[list[str]]:
    rows = []
    for part in said["parts"]:
        [cell] = [one for one in part["covers"] if one["cover"] == cover]
        numbers = [part["expected"], cell["stock"], part["van"], cell["buy"]]
        rows.append([*map(plain, numbers), cell["buy_cost"] or "no price"])
    return rows


@pytest.mark.longer
def test_a_list_that_no_clipboard_takes_is_shown_to_copy_by_hand_and_printed_alone(manager: Phone) -> None:
    page, found = manager.page, shows(manager, "Shopping list")
    refuse = "() => { navigator.clipboard.writeText = async () => { throw new DOMException('', 'NotAllowedError'); }; }"
    page.evaluate(refuse)
    page.get_by_role("button", name="Copy").click()
    by_hand = page.get_by_label("Shopping list as text")
    by_hand.wait_for()
    expect(by_hand).to_have_value(re.compile("parts to buy for a cover of 95 %"))
    if emulates(page, media="print", color_scheme="dark"):
        is_printed_alone(page, found)


def is_printed_alone(page: Page, found: Locator) -> None:
    expect(found).to_be_visible()
    expect(page.get_by_role("navigation").first).not_to_be_visible()
    expect(page.get_by_role("button", name="Print this list")).not_to_be_visible()
    colours = (
        "all => [...new Set(all.flatMap(one => [getComputedStyle(one).color, getComputedStyle(one).borderColor]))]"
    )
    assert page.locator(".shopping, .shopping *").evaluate_all(colours) == ["rgb(0, 0, 0)"]
    page.emulate_media(media="screen", color_scheme="light")


@pytest.mark.longer
def test_everybody_can_read_it_on_a_small_phone(manager: Phone) -> None:
    page = manager.page
    for section in SECTIONS:
        unfold(shows(manager, section))
        for width in (360, 320):
            page.set_viewport_size({"width": width, "height": 780})
            assert too_wide(page) == [], section
        assert axe_finds(page) == [], section
        assert small_targets(page) == [], section
        assert promises(page) == [], section


@pytest.mark.longer
def test_chosen_minutes_come_into_force_and_an_old_screen_is_refused(
    held: Server, manager: Phone, desk: str, event: str
) -> None:
    page, found = manager.page, shows(manager, "Better rates")
    before = held.get(f"/events/{event}/rates/observed", desk)
    suggested = [one for one in before["operations"] if one["suggested"]]
    boxes = found.get_by_role("checkbox")
    assert len(suggested) > 2
    expect(boxes).to_have_count(len(suggested))
    for one in suggested:
        found.get_by_text(one["says"], exact=True).first.wait_for()
    first = found.locator(".suggestions > li").first
    points = ("minutes_best", "minutes_likely", "minutes_worst")
    expect(first.locator("tbody td")).to_have_text(
        [plain(suggested[0][when][point]) for point in points for when in ("table", "suggested")]
    )

    page.get_by_role("button", name="Put the chosen ones in force").click()
    found.get_by_text("Tick at least one suggestion.").wait_for()
    boxes.first.check()
    page.get_by_role("button", name="Put the chosen ones in force (1)").click()
    found.get_by_text("1 operation has new minutes.").wait_for()
    after = held.get(f"/events/{event}/rates/observed", desk)
    assert after["rates"] != before["rates"]
    found.get_by_text(f"Rate table {after['rates'][:8]} is in force for").wait_for()
    found.get_by_text(f"Rate table {after['rates'][:8]} ·").wait_for()
    key = ("component", "condition", "action", "zone")
    now_held = {tuple(one[name] for name in key): one for one in after["operations"]}
    assert now_held[tuple(suggested[0][name] for name in key)]["table"] == suggested[0]["suggested"]

    # Somebody else changes the table behind this screen, which does not hear of it.
    page.route("**/rates/observed", lambda route: route.abort())
    page.route("**/live*", lambda route: route.abort())
    left = [one for one in after["operations"] if one["suggested"]]
    body = {"rates": after["rates"], "operations": [{name: left[-1][name] for name in key}]}
    held.call("POST", "/rates/accept", desk, body)
    boxes.first.check()
    page.unroute("**/rates/observed")
    page.get_by_role("button", name="Put the chosen ones in force (1)").click()
    found.get_by_text("Nothing was changed: what was shown here is out of date.").wait_for()
    latest = held.get(f"/events/{event}/rates/observed", desk)["rates"]
    found.get_by_text(f"Rate table {latest[:8]} ·").wait_for()
    page.unroute("**/live*")


@pytest.mark.longer
@pytest.mark.keeps_app
def test_it_is_read_without_a_server_and_says_when_it_was_heard(held: Server, manager: Phone) -> None:
    shows(manager, "Damage")
    manager.context.set_offline(True)
    page = manager.page
    page.reload()
    page.get_by_role("region", name="Damage per event").wait_for()
    page.get_by_text("As the server said at").wait_for()
    page.get_by_role("radio", name="Better rates", exact=True).check()
    page.get_by_role("button", name="Choose all").click()
    page.get_by_role("button", name="Put the chosen ones in force").click()
    page.get_by_text("The server did not answer").wait_for()
    manager.context.set_offline(False)


@pytest.mark.longer
def test_only_a_manager_sees_it(held: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    phone.join(held, "p-one", CAR)
    page: Page = phone.show("season")
    page.get_by_text("The season is for the manager.").wait_for()
    expect(page.get_by_role("radio")).to_have_count(0)
    phone.show("costs")
    page.get_by_text("Costs are for the manager.").wait_for()
    expect(page.get_by_role("link", name="Season")).to_have_count(0)
    wait_until(page, lambda: phone.complaints == [])
