"""One place of the car: all that is open there, inspected together with one signature."""

import pytest
from crew import Crew, answer_all_ok
from playwright.sync_api import Page, expect


def answer(page: Page, check: str, said: str) -> None:
    page.get_by_role("group", name=check).get_by_label(said, exact=True).check()


def test_a_place_is_repaired_inspected_in_one_page_and_a_finding_is_filed_from_a_check(crew: Crew) -> None:
    toma, bodo, odil = crew("p-toma"), crew("p-bodo"), crew("p-odil")
    toma.logs("Rear left", "Brake hose", "Cracked")
    toma.logs("Rear left", "Lower arm", "Marked")
    bodo.opens("rear-left/brake-hose")
    page = bodo.at("place/rear-left")
    bodo.sees("Waits for an inspector: ")
    page.get_by_role("link", name="Brake hose cracked").wait_for()
    bodo.tap("Start: Brake hose")
    bodo.sees("Bodo, from")

    page = odil.at("place/rear-left")
    odil.sees("After the repair: Brake hose")
    page.get_by_role("link", name="Inspect 1 part").click()
    odil.sees("A pass accepts without a repair only what is unknown, marked or worn")
    page.get_by_role("button", name="Sign", exact=True).click()
    odil.sees("Answer every check before you sign.")
    answer_all_ok(page)
    page.get_by_label("Not OK", exact=True).first.check()
    odil.tap("File what you found")
    page.get_by_label("Bent", exact=True).check()
    odil.tap("File it now")
    odil.sees("It is a job now.")
    [filed] = odil.wrote("report.filed")
    assert (filed["data"]["where"], filed["data"]["zone"]) == ("service", "rear-left")
    assert [one["condition"] for one in filed["data"]["findings"]] == ["bent"]

    odil.signs(passes=False)
    odil.sees("Signed: 1 not passed.")
    [failed] = odil.wrote("inspection.failed")
    assert failed["subject"] == "rear-left/lower-arm"
    odil.at("place/rear-left")
    odil.sees("Not OK: ")


@pytest.mark.longer
def test_answers_outlive_a_look_at_another_page_but_none_counts_for_what_came_in_meanwhile(crew: Crew) -> None:
    toma, odil = crew("p-toma"), crew("p-odil")
    toma.logs("Rear left", "Lower arm", "Marked")
    odil.opens("rear-left/lower-arm")
    page = odil.at("place/rear-left/inspect")
    page.get_by_label("OK", exact=True).first.wait_for()
    answer_all_ok(page)
    odil.at("queue")
    page = odil.at("place/rear-left/inspect")
    page.get_by_role("button", name="Sign: 1 passed").wait_for()
    toma.logs("Rear left", "Brake hose", "Marked")
    odil.opens("rear-left/brake-hose")
    page = odil.at("place/rear-left/inspect")
    page.get_by_role("button", name="Sign", exact=True).wait_for()
    alone = page.get_by_role("group", name="Arm, upright and strut straight")
    expect(alone.get_by_label("OK", exact=True), "it concerns the arm alone").to_be_checked()
    hose = page.get_by_role("group", name="Pedal firm with the engine running").get_by_role("radio")
    assert not any(one.is_checked() for one in hose.all())


@pytest.mark.longer
def test_what_a_pass_will_not_count_for_is_told_before_it_is_signed(crew: Crew) -> None:
    toma, odil = crew("p-toma"), crew("p-odil")
    toma.logs("Rear left", "Brake hose", "Cracked")
    odil.opens("rear-left/brake-hose")
    page = odil.at("place/rear-left/inspect/brake-hose")
    page.get_by_label("OK", exact=True).first.wait_for()
    answer_all_ok(page)
    odil.sees("Brake hose: repair it first. A pass will not count before.")
    answer(page, "Bled where it was open; pedal held hard 30 s", "Not done")
    odil.tap("Sign: 1 passed")
    odil.sees("Write why it was not done")
    page.get_by_label("Why not").fill("Nobody on the pedal")
    odil.sees("stays on hold until this is OK: Bled where it was open")
