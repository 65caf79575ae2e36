"""What phones say and keep while the server is away, and what several people or a shut-out device do on one phone."""

from collections.abc import Callable, Iterator

import pytest
from crew import Member
from phones import Phone, wait_until
from playwright.sync_api import expect
from server import Server


@pytest.fixture
def join(team: Server, new_phone: Callable[[], Phone]) -> Iterator[Callable[[str, str], Member]]:
    """Joins a person on a new phone with a car; none may have complained at the end."""
    joined: list[Phone] = []

    def member(person: str, car: str) -> Member:
        joined.append(new_phone())
        joined[-1].join(team, person, car)
        return Member(team, joined[-1], person, car)

    yield member
    for phone in joined:
        phone.close()
    assert [complaint for phone in joined for complaint in phone.complaints] == []


Join = Callable[[str, str], Member]


@pytest.mark.longer
@pytest.mark.keeps_app
def test_work_done_without_a_server_is_kept_said_to_be_unsent_and_arrives(team: Server, join: Join) -> None:
    toma, bodo = join("p-toma", "41"), join("p-bodo", "41")
    toma.logs("Left side", "Mirror", "Broken")
    page = bodo.opens("left-side/mirror")
    bodo.at("queue")
    bodo.sees("Nothing open in the log")
    bodo.sees("Server heard")
    team.stop()
    try:
        bodo.finishes("left-side/mirror")
        bodo.at("queue")
        bodo.sees("Not known yet")
        assert "1 entry of this phone is not sent yet." in " ".join(bodo.why())
        expect(page.get_by_text("Nothing open in the log")).to_have_count(0)
        expect(page.get_by_text("1 waiting")).to_have_count(1)
        page.locator(".unsent summary").click()
        bodo.sees("Job finished")
        expect(page.locator(".unsent summary")).to_contain_text("not")
        bodo.sees("not reachable now")
        page.reload()
        bodo.sees("Not known yet")
    finally:
        team.start()
    [finished] = bodo.wrote("job.finished")
    bodo.sees("Nothing open in the log")
    expect(page.get_by_text("1 waiting")).to_have_count(0)
    assert team.job("41", "left-side/mirror")["state"] == "finished"
    assert finished["seq"] == 1


@pytest.mark.longer
@pytest.mark.keeps_app
def test_since_the_car_came_in_nothing_is_known_before_the_server_is_heard(team: Server, join: Join) -> None:
    bodo = join("p-bodo", "41")
    bodo.at("queue")
    bodo.sees("Nothing open in the log")
    team.stop()
    try:
        bodo.at("service")
        bodo.tap("We are in")
        bodo.sees("Not known yet")
        assert "No word from the server since the car came in at" in " ".join(bodo.why())
        bodo.at("service/release")
        bodo.sees("Not known here what the log holds. Say who decided and why, and sign with your PIN.")
    finally:
        team.start()
    bodo.wrote("service.entered")
    bodo.sees("Nothing open in the log")


@pytest.mark.longer
@pytest.mark.keeps_app
def test_a_pass_given_without_a_server_ends_the_hold_once_it_is_there(team: Server, join: Join) -> None:
    toma, odil = join("p-toma", "41"), join("p-odil", "41")
    toma.logs("Rear left", "Brake hose", "Marked")
    odil.chooses_pin()
    odil.opens("rear-left/brake-hose")
    team.stop()
    try:
        odil.inspects("rear-left/brake-hose")
        expect(odil.page.get_by_text("Nothing open in the log")).to_have_count(0)
    finally:
        team.start()
    odil.wrote("inspection.passed")
    odil.sees("Nothing open in the log")
    assert team.queue("41")["release"] == "nothing-open"


@pytest.mark.longer
def test_two_people_on_one_phone_each_sign_as_themselves(team: Server, join: Join) -> None:
    toma = join("p-toma", "41")
    second = toma.phone.context.new_page()
    second.goto(team.link("p-bodo"))
    second.get_by_role("heading", name="Queue").wait_for()
    second.get_by_role("combobox", name="Which car").select_option("41")
    toma.page.bring_to_front()
    toma.logs("Left side", "Mirror", "Broken")
    second.bring_to_front()
    second.get_by_role("link", name="Open job: Left side: Mirror").click()
    second.get_by_role("button", name="Start", exact=True).click()
    second.get_by_text("Bodo, from").wait_for()
    toma.page.bring_to_front()
    toma.logs("Right side", "Mirror", "Broken")
    wait_until(second, lambda: len(team.entries("41")) == 3)
    authors = [(one["kind"], one["person"]) for one in team.entries("41")]
    assert authors == [("report.filed", "p-toma"), ("job.started", "p-bodo"), ("report.filed", "p-toma")]
    filed, started, again = team.entries("41")
    assert filed["device"] == again["device"] != started["device"]
    assert [one["seq"] for one in (filed, again, started)] == [1, 2, 1], "each device counts its own"


@pytest.mark.longer
def test_a_shut_out_phones_entry_needs_attention_and_blocks_nothing(team: Server, join: Join) -> None:
    toma = join("p-toma", "41")
    toma.at("me")
    device = toma.sees("This phone's number").inner_text().split(": ")[1]
    team.shut_out(device)
    toma.logs("Left side", "Mirror", "Broken")
    toma.at("me")
    toma.sees("The server does not know you on this phone any more. All is kept here.")
    assert team.entries("41") == []
    toma.page.goto(team.link("p-toma"))
    toma.sees("Attention: 1")
    toma.logs("Right side", "Mirror", "Broken")
    [taken] = toma.wrote("report.filed")
    assert taken["device"] != device
    toma.at("reports")
    toma.sees("Needs attention (1)")
    toma.sees("This phone was blocked before this was sent.")
    page = toma.page
    assert page.locator(".refused li").all_inner_texts()[0].count("Left side: Mirror broken") == 1
    queue = team.queue("41")
    assert {"job": None, "needs": "review"}.items() <= queue["hold_reasons"][0].items()
    assert [job["job"] for job in queue["jobs"]] == ["right-side/mirror"]
