"""Incidents in real browsers: reports grouped without a network, changed, taken apart; a part kept; who drives."""

import pytest
from crew import Crew, Member
from downloads import save
from phones import wait_until
from playwright.sync_api import expect
from test_screens import is_as_it_should_be

from reading_pdf import Pdf

WHEEL, MIRROR = "front-left/wheel", "left-side/mirror"


def incident_of(who: Member) -> dict[str, str]:
    """Return each job's incident as the server's cost sheet has it; what is only to be looked at is left out."""
    lines = who.server.costs(who.car)["lines"]
    return {line["job"]: line["incident"] for line in lines if line["job"] in (WHEEL, MIRROR)}


def two_reports(who: Member) -> list[str]:
    who.logs("Front left", "Wheel rim", "Bent")
    who.logs("Left side", "Mirror", "Broken")
    return [report["id"] for report in who.wrote("report.filed", 2)]


def group_both(who: Member, title: str) -> None:
    page = who.at("incidents")
    who.tap("Group reports of one hit")
    page.get_by_role("checkbox", name="Wheel rim bent").check()
    page.get_by_role("checkbox", name="Mirror broken").check()
    page.get_by_label("Name of the incident").fill(title)
    who.tap("Save the incident")
    page.get_by_role("heading", name=title).wait_for()


@pytest.mark.longer
@pytest.mark.keeps_app
def test_reports_are_grouped_offline_and_the_cost_lines_then_have_one_incident(crew: Crew) -> None:
    toma = crew("p-toma")
    page = toma.page
    toma.phone.context.set_offline(True)
    toma.logs("Front left", "Wheel rim", "Bent")
    toma.logs("Left side", "Mirror", "Broken")
    toma.at("reports")
    toma.tap("More for these reports")
    page.get_by_role("link", name="Incidents").click()
    toma.tap("Group reports of one hit")
    toma.tap("Save the incident")
    toma.sees("Tick at least one report")
    page.get_by_role("checkbox", name="Wheel rim bent").check()
    page.get_by_role("checkbox", name="Mirror broken").check()
    page.get_by_label("Name of the incident").fill("The gate after the farm")
    page.get_by_role("checkbox", name="Gate").check()
    page.get_by_label("What exactly, whose").fill("Gate, left post leans")
    page.get_by_role("checkbox", name="Others were involved").check()
    page.get_by_label("Their plate").fill("X 123")
    page.get_by_label("Police number").fill("77/26")
    toma.tap("Save the incident")
    page.get_by_role("heading", name="The gate after the farm").wait_for()
    toma.sees("Plate: X 123")
    toma.sees("Waiting to be sent")
    assert toma.server.entries(toma.car) == []
    toma.phone.context.set_offline(False)
    [grouping] = toma.wrote("incident.grouped")
    filed = sorted(report["id"] for report in toma.wrote("report.filed", 2))
    assert grouping["data"] == {
        "reports": filed,
        "title": "The gate after the farm",
        "others_involved": True,
        "others": "Plate: X 123\nPolice number: 77/26",
        "property_hit": "Gate, left post leans",
    }
    assert incident_of(toma) == {WHEEL: grouping["id"], MIRROR: grouping["id"]}


@pytest.mark.longer
def test_the_declaration_names_what_was_put_down(crew: Crew) -> None:
    toma = crew("p-toma")
    two_reports(toma)
    page = toma.at("incidents")
    page.get_by_role("button", name="Declare more … Front left corner: Wheel rim bent").click()
    page.get_by_role("checkbox", name="Fence").check()
    toma.tap("Save the incident")
    toma.wrote("incident.grouped")
    page.get_by_role("button", name="To print (PDF)").click()
    link = page.get_by_role("link", name="Save ")
    link.wait_for()
    assert "Fence" in Pdf(save(page, link.click).data).text


@pytest.mark.longer
def test_a_report_is_taken_out_and_what_else_was_said_stays(crew: Crew) -> None:
    toma = crew("p-toma")
    _, mirror = two_reports(toma)
    group_both(toma, "The bank")
    toma.tap("Change … The bank")
    page = toma.page
    expect(page.get_by_label("Name of the incident")).to_have_value("The bank")
    page.get_by_role("checkbox", name="Mirror broken").uncheck()
    page.get_by_label("Who was told").fill("Stage commander, 11:20")
    toma.tap("Save the incident")
    toma.sees("Stage commander, 11:20")
    first, second = toma.wrote("incident.grouped", 2)
    assert (second["data"]["replaces"], second["data"]["title"]) == ([first["id"]], "The bank")
    assert incident_of(toma) == {WHEEL: second["id"], MIRROR: mirror}


@pytest.mark.longer
def test_an_incident_is_taken_apart(crew: Crew) -> None:
    toma = crew("p-toma")
    wheel, mirror = two_reports(toma)
    group_both(toma, "The ditch")
    toma.tap("Take apart: The ditch")
    toma.page.get_by_role("heading", name="The ditch").wait_for(state="detached")
    first, second = toma.wrote("incident.grouped", 2)
    assert second["data"] == {"reports": [], "replaces": [first["id"]]}
    assert incident_of(toma) == {WHEEL: wheel, MIRROR: mirror}


@pytest.mark.longer
def test_by_keyboard_alone(crew: Crew) -> None:
    toma = crew("p-toma")
    two_reports(toma)
    page = toma.at("incidents")
    page.get_by_role("button", name="Group reports of one hit").focus()
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Reports of one hit").wait_for()
    wait_until(page, lambda: page.evaluate("document.activeElement.id") == "hit-title")
    for _ in range(2):
        page.keyboard.press("Tab")
        page.keyboard.press("Space")
    page.keyboard.press("Tab")
    page.keyboard.type("By keys")
    page.get_by_role("button", name="Save the incident").focus()
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="By keys").wait_for()
    [grouping] = toma.wrote("incident.grouped")
    assert len(grouping["data"]["reports"]) == 2


@pytest.mark.longer
@pytest.mark.keeps_app
def test_the_broken_part_is_kept_under_a_tag_and_that_is_undone(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Left side", "Mirror", "Broken")
    page = bodo.opens(MIRROR)
    page.get_by_role("button", name="Start", exact=True).wait_for()
    expect(page.get_by_role("button", name="Keep the broken part"), "nothing was repaired yet").to_have_count(0)
    bodo.finishes(MIRROR)
    bodo.phone.context.set_offline(True)
    bodo.tap("Keep the broken part")
    bodo.tap("Keep it")
    bodo.sees("Write the tag first")
    page.get_by_label("Tag").fill("T 7")
    page.get_by_label("Shelf or box").fill("Shelf B")
    is_as_it_should_be(bodo.phone)
    # Seen as wide as a laptop meanwhile, with the list beside: as a large phone that is turned.
    expect(page.get_by_label("Tag")).to_have_value("T 7")
    bodo.tap("Keep it")
    bodo.sees("Tag T 7, Shelf B")
    is_as_it_should_be(bodo.phone)
    bodo.phone.context.set_offline(False)
    [kept] = bodo.wrote("part.retained")
    assert (kept["subject"], kept["data"]["tag"], kept["data"]["shelf"]) == (MIRROR, "T 7", "Shelf B")
    bodo.tap("Undo: part kept, tag T 7")
    page.get_by_text("Tag T 7, Shelf B").wait_for(state="detached")
    [voided] = bodo.wrote("entry.voided")
    assert voided["data"]["voids"] == [kept["id"]]


@pytest.mark.longer
def test_who_drives_is_said_before_the_first_stage_and_from_the_log(crew: Crew) -> None:
    toma = crew("p-toma")
    page = toma.at("service")
    toma.sees("Nobody has said who drives.")
    page.get_by_role("radio", name="Ilka").click()
    toma.sees("Driving now: Ilka")
    page = toma.at("log")
    toma.tap("Front left")
    page.locator("summary", has_text="who drives").click()
    toma.sees("Driving now: Ilka")
    page.get_by_role("radio", name="Toma").click()
    toma.sees("Driving now: Toma")
    assert [one["data"]["driver"] for one in toma.wrote("driver.changed", 2)] == ["p-ilka", "p-toma"]


@pytest.mark.longer
def test_list_and_form_are_as_they_should_be(crew: Crew) -> None:
    toma = crew("p-toma")
    toma.at("incidents")
    toma.sees("No hit of this car")
    is_as_it_should_be(toma.phone)
    two_reports(toma)
    group_both(toma, "A very long name of an incident thatgoesonandon withoutanyplacetobreakittttttttttttt")
    is_as_it_should_be(toma.phone)
    toma.tap("Change …")
    toma.page.get_by_role("checkbox", name="Others were involved").check()
    is_as_it_should_be(toma.phone)
