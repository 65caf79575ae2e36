"""What the customer is charged: decided, issued, disputed and withdrawn by the manager on the screen."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from crew import Crew, Member
from looking import axe_finds, small_targets, too_wide
from phones import wait_until
from playwright.sync_api import Page, expect
from server import EVENT, Server, running, without_entries

TERMS = """
[[agreements]]
agreement = "hire-41"
car = "41"
customer = "Nadja Kern"
excess = 1500.00
labour_per_hour = 55.00
consumables_percent = 5
deposit = 200.00
excluded = ["mud-flap"]
"""


@pytest.fixture
def team(tmp_path: Path) -> Iterator[Server]:
    """The sample event with nothing logged, car 41 on hire."""
    yield from running(without_entries(tmp_path / "data", tmp_path / "event", [], TERMS))


def stated(who: Member) -> dict:
    return who.server.get(f"/events/{EVENT}/cars/{who.car}/statements", who.server.manager)


def opens_statement(vera: Member, lines: int) -> Page:
    """Open the statement once the server has so many lines in it."""
    wait_until(vera.page, lambda: sum(len(hit["lines"]) for hit in stated(vera)["draft"]["incidents"]) >= lines)
    page = vera.at("costs")
    page.get_by_role("link", name="What the customer is charged").click()
    page.get_by_role("heading", name="What the customer is charged").wait_for()
    page.get_by_role("heading", name="Statement 1, as it stands now").wait_for()
    return page


def shows(page: Page, says: str, amount: str) -> None:
    """Wait until a row's amount stands there as the server says it."""
    row = page.get_by_role("row", name=says).first
    expect(row.locator("td")).to_have_text(f"{amount.replace('-', '−')} EUR")


def test_a_line_is_decided_issued_disputed_and_withdrawn(crew: Crew) -> None:
    toma, vera = crew("p-toma"), crew("p-vera")
    toma.logs("Left side", "Mirror", "Broken")
    toma.logs("Front left", "Mud flap", "Missing")
    toma.wrote("report.filed", 2)
    page = opens_statement(vera, 1)
    draft = stated(vera)["draft"]
    [incident] = draft["incidents"]
    [line] = incident["lines"]
    # Every step of the sum stands on the screen with the server's cents, every mark with its reason.
    for step in [*incident["steps"], *draft["steps"]]:
        shows(page, step["says"], step["amount"])
    page.get_by_text("Not charged (1)").click()
    vera.sees("never charged, by the agreement")

    page.get_by_text("1 line", exact=True).click()
    page.get_by_role("listitem").filter(has_text="Replace mirror").get_by_role("button", name="Decide …").click()
    page.get_by_role("button", name="+10").first.click()
    page.get_by_role("button", name="+10").first.click()
    vera.tap("Save this decision")
    vera.sees("Saved: who pays for the line.")
    [decided] = vera.wrote("charge.decided")
    part = line["parts"][0]["part"]
    assert decided["subject"] == line["line"]
    assert decided["data"]["charge"] is None
    assert decided["data"]["worn"] == [{"part": part, "used_percent": 20}]
    wait_until(page, lambda: stated(vera)["draft"]["incidents"][0]["lines"][0]["parts"][0]["used_percent"] == 20)
    vera.sees("20 % used")

    vera.tap("Add a charge …")
    vera.page.get_by_label("Property of others").check()
    vera.page.get_by_label("As it stands on the statement").fill("Fence, 4 m")
    vera.tap("Save", exact=True)
    vera.sees("Write what it is, how many, and a price such as 12.50.")
    vera.page.get_by_label("Price of one, before tax, EUR").fill("220,5")
    vera.tap("Save", exact=True)
    vera.sees("Saved: a charge besides damage.")
    [added] = vera.wrote("charge.added")
    assert (added["data"]["charge"], added["data"]["qty"], added["data"]["price"]) == ("property", "1", "220.5")
    wait_until(page, lambda: stated(vera)["draft"].get("other", [{}])[0].get("amount") == "220.50")
    page.get_by_role("listitem").filter(has_text="Fence, 4 m").get_by_role("button", name="Correct …").click()
    vera.page.get_by_label("How many").fill("0")
    vera.tap("Save", exact=True)
    _, less = vera.wrote("charge.added", 2)
    assert less["data"]["replaces"] == [added["id"]]
    wait_until(page, lambda: stated(vera)["draft"]["other"][0]["amount"] == "0.00")
    shows(page, "Fence, 4 m", "0.00")  # what is issued is what the screen says, not what the server has heard since

    vera.tap("Issue statement 1")
    vera.sees("Saved: statement 1 is issued.")
    vera.wrote("statement.issued")
    page.get_by_role("heading", name="Statement 2, as it stands now").wait_for()
    vera.sees("Nothing has changed since the last statement.")
    expect(page.get_by_role("button", name="Issue statement 2")).to_be_disabled()

    page.locator("summary", has_text="Statement 1 ·").click()
    issued = page.locator("details").filter(has=page.locator("summary", has_text="Statement 1 ·"))
    issued.get_by_text("1 line", exact=True).click()
    issued.get_by_role("button", name="Customer's answer …").first.click()
    issued.get_by_label("Disputed").check()
    vera.tap("Save", exact=True)
    vera.sees("Write a reason: the other side reads it.")
    issued.get_by_label("Reason").fill("Was cracked before")
    vera.tap("Save", exact=True)
    vera.sees("Saved: disputed.")
    issued.get_by_text("Disputed", exact=False).first.wait_for()
    issued.get_by_role("button", name="Customer's answer …").first.click()
    issued.get_by_label("Withdrawn").check()
    issued.get_by_label("Reason").fill("Photo 9 shows it")
    vera.tap("Save", exact=True)
    vera.sees("Saved: withdrawn.")
    first, second = vera.wrote("statement.line_settled", 2)
    assert second["data"]["replaces"] == [first["id"]]
    wait_until(page, lambda: stated(vera)["draft"]["incidents"] == [])
    [one] = stated(vera)["issued"]
    assert one["incidents"][0]["lines"][0]["standing"] == "withdrawn"
    assert stated(vera)["draft"]["totals"]["now"] == f"-{one['totals']['to_pay']}"


@pytest.mark.longer
def test_a_statement_is_read_by_everybody_on_a_small_phone(crew: Crew) -> None:
    toma, vera = crew("p-toma"), crew("p-vera")
    toma.logs("Front end", "Front bumper", "Broken")
    page = opens_statement(vera, 1)
    page.get_by_text("1 line", exact=True).click()
    page.get_by_role("button", name="Decide …").first.click()
    for width in (360, 320):
        page.set_viewport_size({"width": width, "height": 780})
        assert too_wide(page) == []
    assert axe_finds(page) == []
    assert small_targets(page) == []


@pytest.mark.longer
def test_only_a_manager_reads_it_and_a_car_without_agreement_says_so(crew: Crew, team: Server) -> None:
    bodo = crew("p-bodo")
    bodo.at("statement")
    bodo.sees("Statements are for the manager.")
