"""Setting up an event in the browser: drafts without a server, faults in their cells, files, a new event."""

import csv
import io
import json
import logging
from collections.abc import Callable, Iterator
from datetime import date, datetime
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from downloads import save
from engines import emulates
from hand import K_AVERAGE, K_WORST, Counted
from looking import COLOURS, axe_finds, promises, small_targets, too_wide
from phones import SLOW_MS, Phone, stored, wait_until
from playwright.sync_api import Locator, Page, Route, ViewportSize, expect
from server import EVENT, Server, running, with_sample
from setup_screens import types_over

from sample_event import event_files
from shuntbook.setup.defaults import with_first
from shuntbook.setup.folder import default_car_map, read_setup
from shuntbook.store import setups
from shuntbook.store.database import Store
from shuntbook.store.refresh import rebuild

NARROW: ViewportSize = {"width": 360, "height": 740}


@pytest.fixture
def sample(tmp_path: Path) -> Iterator[Server]:
    yield from running(with_sample(tmp_path / "data"))


@pytest.fixture
def manager(sample: Server, new_phone: Callable[[], Phone]) -> Phone:
    """A manager's phone that holds the event's files."""
    phone = new_phone()
    phone.join(sample, "p-vera")
    phone.page.set_viewport_size(NARROW)
    sections(phone)
    return phone


def sections(phone: Phone, event: str = EVENT) -> Page:
    page = phone.show(f"setup/{event}")
    page.get_by_role("link", name="Parts").wait_for(timeout=SLOW_MS)
    return page


def table(phone: Phone, name: str, title: str) -> Page:
    page = phone.show(f"setup/{EVENT}/{name}")
    page.get_by_role("heading", name=title, level=1).wait_for()
    return page


def cell(page: Page, column: str, row: int) -> Locator:
    return page.get_by_label(f"{column}, row {row}", exact=True)


def write(page: Page, column: str, row: int, text: str) -> None:
    types_over(cell(page, column, row), text)
    kept(page)


def kept(page: Page) -> None:
    page.get_by_text("Kept on this phone at").first.wait_for()


def row_of(page: Page, key: str) -> int:
    """Return the number of the row whose first cell says this."""
    names = page.locator("td.first input").evaluate_all("all => all.map(one => [one.ariaLabel, one.value])")
    return next(int(label.rsplit(" ", 1)[1]) for label, value in names if value == key)


def put_in_force(page: Page) -> None:
    button = page.get_by_role("button", name="Put in force")
    expect(button).to_be_enabled(timeout=SLOW_MS)
    button.click()
    page.get_by_text("is in force. Phones get it").wait_for(timeout=SLOW_MS)


def a_part_in_the_queue(server: Server) -> str:
    jobs = server.queue("41")["jobs"]
    return next(part["part"] for job in jobs for part in job["estimate"]["parts"])


def unit_costs(server: Server, part: str) -> set[str]:
    jobs = server.queue("41")["jobs"]
    return {one["unit_cost"] for job in jobs for one in job["estimate"]["parts"] if one["part"] == part}


@pytest.mark.keeps_app
def test_a_rate_changed_without_a_server_is_looked_at_mended_and_put_in_force(sample: Server, manager: Phone) -> None:
    part = a_part_in_the_queue(sample)
    page = table(manager, "parts", "Parts")
    sample.stop()
    page.get_by_role("textbox", name="Find rows").fill(part)
    number = row_of(page, part)
    write(page, "unit cost", number, "many")

    page.reload()
    page.get_by_role("heading", name="Parts", level=1).wait_for(timeout=SLOW_MS)
    page.get_by_role("textbox", name="Find rows").fill(part)
    expect(cell(page, "unit cost", number)).to_have_value("many")
    page.get_by_role("button", name="Check for faults").click()
    page.get_by_text("The draft is kept on this phone").wait_for(timeout=SLOW_MS)

    sample.start()
    page.get_by_role("button", name="Check for faults").click()
    page.get_by_role("heading", name="1 fault to fix").wait_for(timeout=SLOW_MS)
    page.get_by_role("button", name=f"Parts, row {number}, unit cost").click()
    wrong = cell(page, "unit cost", number)
    expect(wrong).to_be_focused()
    expect(wrong).to_have_attribute("aria-invalid", "true")
    expect(wrong).to_have_accessible_description("'many' is not a number; write it in digits, such as 12.5")
    assert unit_costs(sample, part) != {"321.50"}

    write(page, "unit cost", number, "321.50")
    expect(wrong).to_have_attribute("aria-invalid", "false")
    page.get_by_role("link", name="All sections").click()
    page.get_by_role("link", name="See what changes").click()
    page.get_by_text("321.5").wait_for(timeout=SLOW_MS)
    changed = page.get_by_role("region", name="Parts")
    expect(changed.get_by_role("listitem")).to_have_count(1)
    put_in_force(page)
    assert unit_costs(sample, part) == {"321.50"}
    expect(page.get_by_text("As it is in force.")).to_be_visible()


@pytest.mark.longer
def test_a_draft_that_was_changed_back_changes_nothing_for_the_server(manager: Phone) -> None:
    """All files went through the phone's tables and back: the server finds the meaning of each as it was."""
    page = table(manager, "stages", "Stages")
    before = cell(page, "km", 1).input_value()
    write(page, "km", 1, "99")
    write(page, "km", 1, before)
    manager.show(f"setup/{EVENT}/changes")
    page.get_by_text("Nothing changes: the draft says what is in force.").wait_for(timeout=SLOW_MS)
    expect(page.get_by_role("button", name="Put in force")).to_be_disabled()


@pytest.mark.longer
def test_keys_move_through_the_cells_and_a_row_comes_and_goes(manager: Phone) -> None:
    page = table(manager, "stages", "Stages")
    cell(page, "km", 1).focus()
    page.keyboard.press("ArrowDown")
    expect(cell(page, "km", 2)).to_be_focused()
    page.keyboard.press("Enter")
    expect(cell(page, "km", 3)).to_be_focused()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Home")
    page.keyboard.press("ArrowLeft")
    expect(cell(page, "stage", 2)).to_be_focused()
    cell(page, "stage", 9).focus()
    page.keyboard.press("Enter")
    expect(cell(page, "stage", 10)).to_be_focused()
    # Typed at once, cell after cell, with new rows between: nothing of it may get lost on the way.
    for text, key in (("SS10", "Tab"), ("7", "Shift+Tab"), ("", "Enter")):
        page.keyboard.type(text)
        page.keyboard.press(key)
    expect(cell(page, "stage", 11)).to_be_focused()
    for text, key in (("SS11", "Tab"), ("8", "Enter")):
        page.keyboard.type(text)
        page.keyboard.press(key)
    expect(cell(page, "km", 12)).to_be_focused()
    page.keyboard.type("9")
    page.keyboard.press("Tab")
    page.wait_for_timeout(1_000)  # longer than the pause after which a cell goes to the draft by itself
    rows = [(cell(page, "stage", n).input_value(), cell(page, "km", n).input_value()) for n in (10, 11, 12)]
    assert rows == [("SS10", "7"), ("SS11", "8"), ("", "9")]
    page.get_by_role("button", name="Row 12:").click()
    page.get_by_role("button", name="Take out", exact=True).click()
    page.get_by_role("button", name="Row 11:").click()
    page.get_by_role("button", name="Take out", exact=True).click()
    kept(page)
    page.get_by_role("button", name="Row 10:").click()
    page.get_by_role("button", name="Take out", exact=True).click()
    expect(cell(page, "stage", 10)).to_have_count(0)
    page.get_by_role("button", name="Undo").click()
    expect(cell(page, "stage", 10)).to_have_value("SS10")


@pytest.mark.longer
@pytest.mark.only_in("chromium", "Firefox knows no permission for the clipboard")
def test_cells_pasted_from_a_spreadsheet_fill_the_rows(manager: Phone) -> None:
    manager.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page = table(manager, "stages", "Stages")
    block = 'SS8\t16,5\r\n"SS9 ""long"""\t10.6\r\n"SS10\twet"\t7\r\n'
    page.evaluate("text => navigator.clipboard.writeText(text)", block)
    cell(page, "stage", 8).click()
    page.keyboard.press("Control+v")
    page.get_by_text("Pasted 6 cells, 1 new row.").wait_for()
    expect(cell(page, "km", 10)).to_have_value("7")
    rows = [(cell(page, "stage", n).input_value(), cell(page, "km", n).input_value()) for n in (8, 9, 10)]
    assert rows == [("SS8", "16.5"), ('SS9 "long"', "10.6"), ("SS10\twet", "7")]
    page.get_by_role("button", name="Undo").click()
    expect(cell(page, "stage", 10)).to_have_count(0)


def workbook(path: Path, **sheets: list[list[object]]) -> Path:
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(row)
    book.save(path)
    return path


@pytest.mark.longer
def test_a_workbook_with_a_sheet_for_each_table_is_taken(manager: Phone, tmp_path: Path) -> None:
    people = [["person", "name", "roles", "shoe size"], ["p-vera", "Vera", "manager", 41], ["p-nils", "Nils", "driver"]]
    cars = [["car", "label"], [41, "ours"], [43, "'=new"]]
    services = [["service", "arrive", "minutes"], ["A", datetime(2026, 6, 13, 10, 5), 30]]
    dated = [["car", "item", "expires"], [41, "harness", date(2027, 5, 31)]]
    sheets: dict[str, Any] = {"people": people, "cars": cars, "services": services, "dated": dated}
    path = workbook(tmp_path / "team.xlsx", **sheets, holidays=[["day"], ["never"]])
    page = sections(manager)
    page.locator("input[type=file]").set_input_files(path)
    page.get_by_text("Taken into the draft: People, Cars, Services, Dated items.").wait_for(timeout=SLOW_MS)
    page.get_by_text("Left out, since no table here has it: column shoe size of people, sheet holidays.").wait_for()
    kept(page)
    page = table(manager, "cars", "Cars")
    expect(cell(page, "car", 1)).to_have_value("41")
    expect(cell(page, "car", 2)).to_have_value("43")
    expect(cell(page, "label", 2)).to_have_value("=new")
    expect(cell(table(manager, "services", "Services"), "arrive", 1)).to_have_value("2026-06-13 10:05")
    expect(cell(table(manager, "dated", "Dated items"), "expires", 1)).to_have_value("2027-05-31")


@pytest.mark.longer
def test_a_car_map_of_the_teams_own_begins_with_what_the_one_in_force_says(sample: Server, manager: Phone) -> None:
    page = sections(manager)
    page.get_by_role("button", name="Make the team's own car map from it").click()
    page.get_by_role("link", name="Zones").wait_for()
    kept(page)
    page = manager.show(f"setup/{EVENT}/changes")
    page.get_by_text("Nothing changes: the draft says what is in force.").wait_for(timeout=SLOW_MS)
    page = table(manager, "zones", "Zones")
    write(page, "label", 1, "Front left wheel")
    manager.show(f"setup/{EVENT}/changes")
    put_in_force(page)
    held = sample.get("/setup", sample.manager)["events"][0]["car_map"]
    assert held["zones"]["front-left"]["label"] == "Front left wheel"


@pytest.mark.longer
def test_what_is_downloaded_is_defused_and_taken_again_as_it_was(manager: Phone, tmp_path: Path) -> None:
    page = table(manager, "cars", "Cars")
    write(page, "label", 1, '=HYPERLINK("x"),1')
    path = tmp_path / "cars.csv"
    path.write_bytes(save(page, page.get_by_role("button", name="Download CSV").click).data)
    rows = list(csv.DictReader(io.StringIO(path.read_text("utf-8-sig"))))
    assert rows[0] == {"car": "41", "label": '\'=HYPERLINK("x"),1'}
    write(page, "label", 1, "another")
    wait_until(page, lambda: '"another"' in json.dumps(stored(page, "meta")))
    page.locator("input[type=file]").set_input_files(path)
    page.get_by_text("Taken into the draft: Cars.").wait_for(timeout=SLOW_MS)
    expect(cell(page, "label", 1)).to_have_value('=HYPERLINK("x"),1')


@pytest.mark.longer
def test_the_workbook_of_all_tables_is_read_by_another_program(manager: Phone, tmp_path: Path) -> None:
    page = sections(manager)
    path = tmp_path / "all.xlsx"
    path.write_bytes(save(page, page.get_by_role("button", name="Download all as a workbook").click).data)
    book = openpyxl.load_workbook(path)
    stages = [row[:2] for row in book["stages"].iter_rows(values_only=True)]
    assert stages[:3] == [("stage", "km"), ("SS1", 9.4), ("SS2", 14.2)]
    assert book["operations"].max_row == len(event_files("on")["rates/operations.csv"].splitlines())
    page.locator("input[type=file]").set_input_files(path)
    page.get_by_text("Taken into the draft: Event,").wait_for(timeout=SLOW_MS)
    manager.show(f"setup/{EVENT}/changes")
    page.get_by_text("Nothing changes: the draft says what is in force.").wait_for(timeout=SLOW_MS)


@pytest.mark.longer
def test_a_new_event_from_the_last_one_takes_less_than_two_minutes(
    sample: Server, manager: Phone, new_phone: Callable[[], Phone]
) -> None:
    mechanic = new_phone()
    mechanic.join(sample, "p-bodo")
    page = manager.show("me")
    hand = Counted(page)
    hand.tap(page.get_by_role("link", name="Set up events"))
    hand.tap(page.get_by_role("link", name="New event from this one"))
    expect(page.get_by_role("textbox", name="Name of the event")).to_be_focused()
    hand.type("Otter Hollow Stages")
    hand.tap(page.get_by_label("First day"), x=16)
    hand.type("09122026")  # the field shows month, day, year in this browser
    expect(page.get_by_role("textbox", name="Event id")).to_have_value("otter-hollow-stages-2026")
    hand.tap(page.get_by_role("button", name="Make the draft"))
    button = page.get_by_role("button", name="Put in force")
    expect(button).to_be_enabled(timeout=SLOW_MS)
    hand.tap(button)
    page.get_by_text("Otter Hollow Stages is in force.").wait_for(timeout=SLOW_MS)
    hand.stop()
    usual_s, worst_s = (hand.seconds(key) + hand.waited for key in (K_AVERAGE, K_WORST))
    told = (hand.taps, hand.keys, hand.waited, usual_s, worst_s)
    logging.getLogger(__name__).info("%d taps, %d keys, %.1f s waited: %.1f s, %.1f s at worst", *told)
    assert usual_s < worst_s < 120

    made = next(one for one in sample.get("/setup", sample.manager)["events"] if one["event"] != EVENT)
    assert (made["event"], made["stages"]) == ("otter-hollow-stages-2026", [])
    assert [one["arrive"][:16] for one in made["services"]][:2] == ["2026-09-12T10:20", "2026-09-12T13:40"]
    old = next(one for one in sample.get("/setup", sample.manager)["events"] if one["event"] == EVENT)
    for same in ("people", "cars", "routine", "car_map", "rates", "van", "regulations", "dated"):
        assert made[same] == old[same]

    page = manager.show("me")
    expect(page.get_by_role("combobox", name="Event")).to_have_value(made["event"], timeout=SLOW_MS)
    other = mechanic.fresh(sample, "me", "41")
    other.get_by_role("combobox", name="Event").select_option(made["event"], timeout=SLOW_MS)
    expect(other.get_by_role("combobox", name="Event")).to_have_value(made["event"])


@pytest.mark.longer
def test_a_draft_goes_onto_what_another_manager_put_in_force_meanwhile(sample: Server, manager: Phone) -> None:
    page = table(manager, "stages", "Stages")
    write(page, "km", 1, "9.9")
    manager.show(f"setup/{EVENT}/changes")
    expect(page.get_by_role("button", name="Put in force")).to_be_enabled(timeout=SLOW_MS)
    files = sample.get(f"/events/{EVENT}/files", sample.manager)["files"]
    files["event.toml"] = files["event.toml"].replace('name = "Kasp"', 'name = "Kaspar"')
    puts: list[str] = []

    def until_put(route: Route) -> None:
        """The phone hears of nothing before its own change arrives at the server."""
        if route.request.method == "PUT":
            puts.append(route.request.url)
        if puts:
            route.continue_()
        else:
            route.abort()

    page.route("**/api/v1/**", until_put)
    manager.context.set_offline(True)  # ends the stream that would bring the news
    sample.call("PUT", f"/events/{EVENT}", sample.manager, {"files": files})
    manager.context.set_offline(False)
    page.get_by_role("button", name="Put in force").click()
    page.get_by_role("button", name="Bring my draft onto that version").click(timeout=SLOW_MS)
    assert puts
    put_in_force(page)
    held = next(one for one in sample.get("/setup", sample.manager)["events"] if one["event"] == EVENT)
    assert held["stages"][0]["km"] == 9.9
    assert "Kaspar" in [one["name"] for one in held["people"]]


def with_a_fault(phone: Phone) -> Page:
    page = table(phone, "parts", "Parts")
    write(page, "unit cost", 2, "many")
    page.get_by_role("button", name="Check for faults").click()
    page.get_by_role("heading", name="1 fault to fix").wait_for(timeout=SLOW_MS)
    page.get_by_role("button", name="Row 3:").click()
    page.get_by_role("button", name="Take out", exact=True).wait_for()
    return page


def what_changes(phone: Phone) -> Page:
    page = table(phone, "services", "Services")
    write(page, "minutes", 1, "31")
    phone.show(f"setup/{EVENT}/changes")
    page.get_by_role("region", name="Services").wait_for(timeout=SLOW_MS)
    return page


def a_form(phone: Phone) -> Page:
    return table(phone, "regulations", "Regulations")


def new_event(phone: Phone) -> Page:
    page = phone.show(f"setup/{EVENT}/new")
    page.get_by_role("heading", name="New event", level=1).wait_for()
    return page


@pytest.mark.longer
@pytest.mark.parametrize("shown", [sections, with_a_fault, what_changes, a_form, new_event])
def test_each_page_of_setting_up_is_plain_to_read_and_to_reach(manager: Phone, shown: Callable[[Phone], Page]) -> None:
    # Colours that are still on their way are no colours of ours.
    manager.page.emulate_media(reduced_motion="reduce")
    page = shown(manager)
    assert axe_finds(page) == []
    assert small_targets(page) == []
    assert too_wide(page) == []
    assert promises(page) == []
    if emulates(page, color_scheme="dark", reduced_motion="reduce"):
        assert axe_finds(page, COLOURS) == []


def test_whoever_is_no_manager_sees_no_set_up(sample: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    phone.join(sample, "p-bodo")
    page = phone.show("setup")
    page.get_by_text("Setting up events is for the manager.").wait_for()
    expect(page.get_by_role("link", name="Parts")).to_have_count(0)


@pytest.mark.longer
def test_a_person_who_is_new_in_the_draft_is_let_in_once_it_is_in_force(
    sample: Server, manager: Phone, new_phone: Callable[[], Phone]
) -> None:
    page = table(manager, "people", "People")
    page.get_by_role("button", name="Add a row").click()
    write(page, "person", 10, "p-nils")
    write(page, "name", 10, "Nils")
    write(page, "roles", 10, "mechanic")
    manager.show(f"setup/{EVENT}/changes")
    put_in_force(page)
    page.get_by_role("combobox", name="Person").select_option("p-nils", timeout=SLOW_MS)
    page.get_by_role("button", name="Make a join link").click()
    page.get_by_role("img", name="QR code 1 of 1").wait_for(timeout=SLOW_MS)
    assert small_targets(page) == []
    assert too_wide(page) == []
    link = page.get_by_text(f"{sample.url}/#/join/").inner_text()
    other = new_phone().page
    other.goto(link)
    other.get_by_role("button", name="Car 41").click(timeout=SLOW_MS)
    other.evaluate("location.hash = '#/me'")
    other.get_by_text("Nils").first.wait_for(timeout=SLOW_MS)


def test_a_first_event_is_made_on_a_server_that_holds_none(tmp_path: Path, new_phone: Callable[[], Phone]) -> None:
    server = Server(tmp_path / "nothing")
    server.start()
    try:
        page = new_phone().page
        page.goto(server.link("p-boss"))
        page.get_by_text("The event's set-up is not on this phone yet.").wait_for(timeout=SLOW_MS)
        page.evaluate("location.hash = '#/setup'")
        page.get_by_role("link", name="Make a first event").click(timeout=SLOW_MS)
        page.get_by_role("textbox", name="Name of the event").fill("First Try")
        page.get_by_label("First day").fill("2026-09-12")
        page.get_by_role("button", name="Make the draft").click()
        page.get_by_text("A row for each car").wait_for(timeout=SLOW_MS)
        page.evaluate("location.hash = '#/setup/first-try-2026/changes'")
        put_in_force(page)
        made = server.get("/setup", server.token("p-boss"))["events"]
        assert [(one["event"], one["people"][0]["roles"]) for one in made] == [("first-try-2026", ["manager"])]
    finally:
        server.stop()


@pytest.fixture
def begun_earlier(tmp_path: Path) -> Iterator[Server]:
    """The sample as an event that release 0.1 began."""
    server = with_sample(tmp_path / "data")
    with Store(server.data).write() as db:
        files = with_first(setups.files_of(db, EVENT, setups.in_force(db, EVENT) or ""))
        setups.put(db, read_setup(files), files)
        rebuild(db, EVENT)
    yield from running(server)


@pytest.mark.longer
def test_an_event_begun_earlier_is_offered_the_newer_map_and_lists(
    begun_earlier: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    phone.join(begun_earlier, "p-vera")
    page = sections(phone)
    page.get_by_role("button", name="Take them into the draft").click()
    kept(page)
    expect(page.get_by_role("button", name="Take them into the draft")).to_have_count(0)
    page.get_by_role("link", name="See what changes").click()
    symptoms = page.get_by_role("region", name="Symptoms")
    symptoms.get_by_text("long-pedal").wait_for(timeout=SLOW_MS)
    put_in_force(page)
    held = setups.get(Store(begun_earlier.data).db, EVENT)
    assert (held.car_map.symptoms, held.event.looks) == (default_car_map().symptoms, {})


@pytest.mark.longer
def test_an_agreement_is_a_form_that_says_what_a_hit_would_cost(sample: Server, manager: Phone) -> None:
    page = manager.show(f"setup/{EVENT}/agreements")
    page.get_by_role("heading", name="Agreements", level=1).wait_for(timeout=SLOW_MS)
    example = page.get_by_role("region", name="An example")
    example.get_by_text("A 1,200 EUR hit would cost the customer 1,200 EUR.").wait_for()
    for label, text in (("excess", "750"), ("cap", "2000")):
        types_over(page.get_by_label(label).first, text)
    kept(page)
    expect(example).to_contain_text("A 1,200 EUR hit would cost the customer 750 EUR.")
    expect(example).to_contain_text("Three hits of 1,200 EUR in the event: 2,000 EUR.")
    expect(page.get_by_text("Of each hit the customer pays at most 750 EUR.")).to_be_visible()
    example.get_by_role("textbox").fill("300")
    expect(example).to_contain_text("A 300 EUR hit would cost the customer 300 EUR.")
    types_over(page.get_by_label("excluded").first, "mudflap")
    kept(page)
    page.get_by_role("button", name="Check for faults").click()
    page.get_by_role("heading", name="1 fault to fix").wait_for(timeout=SLOW_MS)
    expect(page.get_by_text("did you mean mud-flap?").first).to_be_visible()
    assert axe_finds(page) == small_targets(page) == too_wide(page) == promises(page) == []
    page.get_by_role("button", name="Agreement for car 41").click()
    types_over(page.get_by_label("customer").last, "Mara Lindqvist-Hohenberg")
    kept(page)
    assert table_rows(manager, "agreements") == ["hire-42", "hire-41"]


def table_rows(phone: Phone, name: str) -> list[str]:
    page = phone.show(f"setup/{EVENT}/{name}/table")
    page.get_by_role("table").wait_for()
    return [one for one in page.locator("td.first input").evaluate_all("all => all.map(one => one.value)") if one]
