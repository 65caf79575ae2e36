"""The pictures of the cost sheet in a real browser: the tables behind them hold the API's numbers to the cent."""

from collections.abc import Callable
from decimal import Decimal

import pytest
from looking import at_rest, axe_finds, too_wide
from phones import Phone, wait_until
from playwright.sync_api import Locator, expect
from screens import unfold
from server import Server
from test_screens import is_as_it_should_be

Rows = dict[str, list[Decimal]]
COLUMNS = {"Estimate": "estimate", "Actual": "actual", "Adjustments": "adjustments", "Before tax": "before_tax"}

INSIDE = """() => [...document.querySelectorAll('.itinerary svg')].every(
  (one) => one.getBoundingClientRect().right <= one.parentElement.getBoundingClientRect().right + 1)"""


@pytest.fixture
def vera(server: Server, new_phone: Callable[[], Phone]) -> Phone:
    """The manager's phone at the costs of car 42, all unfolded."""
    phone = new_phone()
    phone.join(server, "p-vera", "42")
    phone.fresh(server, "costs", "42")
    phone.page.get_by_role("heading", name="By stage").wait_for()
    unfold(phone.page)
    return phone


def shown(table: Locator) -> Rows:
    """Return a table's rows by label, as numbers."""
    return {
        row.locator("th").inner_text(): [
            Decimal(cell.replace(",", "").replace("−", "-")) for cell in row.locator("td").all_inner_texts()
        ]
        for row in table.locator("tbody tr").all()
    }


def served(rows: list[dict], key: str, labels: dict[str | None, str], heads: list[str]) -> Rows:
    return {labels.get(row[key], str(row[key])): [Decimal(row[COLUMNS[head]]) for head in heads] for row in rows}


def heads(table: Locator) -> list[str]:
    return table.locator("thead th").all_inner_texts()[1:]


@pytest.mark.longer
def test_the_table_behind_the_itinerary_has_the_numbers_of_the_api(server: Server, vera: Phone) -> None:
    table = vera.page.get_by_role("region", name="By stage", exact=True).get_by_role("table")
    assert heads(table) == list(COLUMNS), "car 42 has corrections, so they are shown"
    costs = server.costs("42")
    assert shown(table) == served(costs["by_stage"], "stage", {None: "No stage"}, heads(table))


@pytest.mark.longer
def test_every_stage_and_service_of_the_itinerary_is_drawn(server: Server, vera: Phone) -> None:
    drawing = vera.page.locator(".itinerary")
    stages = drawing.locator(".name").all_text_contents()
    assert stages == [f"SS{number}" for number in range(1, 10)] + ["No stage"]
    expect(drawing.locator(".service-mark text")).to_have_text(list("ABCDE"))
    by_stage = {row["stage"]: row for row in server.costs("42")["by_stage"]}
    assert drawing.locator("g", has_text="SS8").locator("text").all_text_contents()[2:] == [
        f"{Decimal(by_stage['SS8'][key]):,.0f}" for key in ("estimate", "actual")
    ]


@pytest.mark.longer
def test_the_table_behind_the_car_has_the_numbers_of_the_api(server: Server, vera: Phone) -> None:
    place = vera.page.get_by_role("region", name="By place on the car", exact=True)
    table = place.get_by_role("table")
    zones = server.get("/setup", server.manager)["events"][0]["car_map"]["zones"]
    labels = {name: zone["label"] for name, zone in zones.items()}
    costs = server.costs("42")
    assert shown(table) == served(costs["by_zone"], "zone", labels, heads(table))
    dearest = max(costs["by_zone"], key=lambda row: Decimal(row["actual"]))
    drawn = place.locator(".zone-money", has_text=f"{Decimal(dearest['actual']):,.0f}").first
    assert drawn.locator("path").get_attribute("fill").endswith("-4)"), "the most is hatched the densest"


@pytest.mark.longer
@pytest.mark.parametrize(
    ("by", "key"),
    [("Driver", "driver"), ("Day", "day"), ("Part of the car", "component"), ("Car", "car")],
)
def test_the_other_ways_to_sum_up_have_the_numbers_of_the_api(server: Server, vera: Phone, by: str, key: str) -> None:
    vera.page.get_by_role("combobox", name="By driver, day").select_option(label=by)
    place = vera.page.get_by_role("region", name=f"By {by.lower()}", exact=True)
    place.wait_for()
    rows = server.costs("42")[f"by_{key}"]
    table = place.get_by_role("table")
    # Names differ by dimension; numbers and their order must not.
    found = [row.locator("td").all_inner_texts() for row in table.locator("tbody tr").all()]
    expected = [[f"{Decimal(row[COLUMNS[head]]):,.2f}".replace("-", "−") for head in heads(table)] for row in rows]
    assert found == expected


@pytest.mark.longer
def test_per_kilometre_and_what_a_line_hangs_on(server: Server, vera: Phone) -> None:
    costs = server.costs("42")
    page = vera.page
    place = page.get_by_role("region", name="Set against the stages")
    expect(place).to_contain_text(f"{costs['per_stage_km']['actual']} EUR per stage kilometre")
    expect(place).to_contain_text(f"Over {costs['stage_km']} km")
    expect(place).to_contain_text(costs["totals"]["consumables"])
    lines = page.get_by_role("region", name="Lines (")
    baseline = sum(line["baseline"] for line in costs["lines"])
    expect(lines.get_by_text("Was there at the hand-over")).to_have_count(baseline)
    filed = {entry["id"]: entry["subject"] for entry in server.entries("42") if entry["kind"].startswith("report.")}
    behind = {filed[one] for line in costs["lines"] for one in line["entries"] if one in filed}
    linked = {link.get_attribute("href") for link in lines.locator("a[href^='#/log/']").all()}
    assert linked == {f"#/log/{subject}" for subject in behind}
    lines.locator("a[href='#/incidents']").first.click()
    page.get_by_role("heading", name="Incidents").wait_for()


@pytest.mark.longer
def test_nothing_sticks_out_and_axe_finds_nothing(vera: Phone) -> None:
    page = vera.page
    is_as_it_should_be(vera)
    for width in (320, 360, 700, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        assert at_rest(page, lambda: too_wide(page)) == []
        wait_until(page, lambda: page.evaluate(INSIDE))  # the itinerary fits
    assert axe_finds(page) == []
