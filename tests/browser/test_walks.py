"""Walks through the screens on a made-up state, as a person would: what is said, and which entries they ask for."""

from collections.abc import Callable, Iterator

import harness
import pytest
from crew import answer_all_ok, answer_asks
from harness import Walker
from phones import SIZE, Phone
from playwright.sync_api import Browser, expect


@pytest.fixture(scope="session")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Where the harness is served, built again."""
    folder = tmp_path_factory.mktemp("harness")
    harness.build(folder)
    with harness.serving(folder) as address:
        yield address


@pytest.fixture
def walk(browser: Browser, address: str) -> Iterator[Callable[[str], Walker]]:
    """Opens the harness at a path; at the end the page must not have complained."""
    phone = Phone(browser.new_context(viewport=SIZE))

    def begin(path: str) -> Walker:
        walker = Walker(phone, address)
        walker.open(path)
        return walker

    yield begin
    phone.close()
    assert phone.complaints == []


Walk = Callable[[str], Walker]


def test_three_taps_make_a_report_and_same_again_fills_in_the_other_side(walk: Walk) -> None:
    he = walk("?empty#/log")
    he.press("Front left")
    he.page.get_by_label("Wheel", exact=True).check()
    he.press("Save")
    he.page.get_by_text("Kept on this phone").wait_for()
    [report] = he.heard(1)
    body = report["data"]
    assert report["kind"] == "report.filed"
    assert (body["zone"], body["findings"]) == ("front-left", [{"component": "wheel", "condition": "bent"}])
    assert (body["stage"], body["where"], body["km"], body["drives"]) == ("SS1", "stage", None, None)
    he.press("Same again")
    he.page.get_by_role("heading", name="Front right").wait_for()
    he.press("Save")
    he.page.get_by_text("Kept on this phone").wait_for()
    [_, other] = he.heard(2)
    assert (other["data"]["zone"], other["data"]["findings"]) == ("front-right", body["findings"])
    he.press("Undo: withdraw")
    he.page.get_by_text("Withdrawn. It stays").wait_for()
    [*_, undo] = he.heard(3)
    assert (undo["kind"], undo["subject"]) == ("report.withdrawn", other["id"])


def test_a_report_without_a_place_needs_something_noticed(walk: Walk) -> None:
    he = walk("?empty#/log")
    he.press("No place")
    he.press("Save")
    he.page.get_by_text("Nothing is said yet").wait_for()
    assert he.asked == []
    he.page.get_by_label("Brake pedal long").check()
    he.press("Save")
    [report] = he.heard(1)
    assert (report["data"]["zone"], report["data"]["symptoms"]) == (None, ["long-pedal"])


def test_the_car_can_be_tapped_by_keyboard(walk: Walk) -> None:
    he = walk("?empty#/log")
    he.page.get_by_role("button", name="Rear right").focus()
    he.page.keyboard.press("Enter")
    he.page.get_by_role("heading", name="Rear right").wait_for()
    he.page.get_by_role("button", name="Save", exact=True).focus()
    he.page.keyboard.press("Space")
    assert he.heard(1)[0]["data"]["zone"] == "rear-right"


def test_stopped_puts_people_before_the_form_and_the_report_says_that_it_does_not_drive(walk: Walk) -> None:
    he = walk("?empty#/log")
    he.press("We have stopped")
    he.page.get_by_role("heading", name="people first").wait_for()
    expect(he.page.get_by_role("button", name="Save")).to_have_count(0)
    he.press("Done, log it now")
    he.press("Front end")
    he.press("Save")
    assert he.heard(1)[0]["data"]["drives"] == "no"


def test_a_draft_survives_a_look_at_another_screen(walk: Walk) -> None:
    he = walk("?empty#/log")
    he.press("Front left")
    he.page.get_by_label("Tyre", exact=True).check()
    he.page.get_by_role("link", name="Service").click()
    he.page.get_by_role("heading", name="Service", exact=True).wait_for()
    he.page.get_by_role("link", name="Log", exact=True).click()
    he.page.get_by_role("heading", name="Front left").wait_for()
    expect(he.page.get_by_label("Tyre", exact=True)).to_be_checked()


def test_km_direction_and_cause_are_kept_and_an_estimated_km_says_so(walk: Walk) -> None:
    he = walk("?empty#/log")
    he.press("Left side")
    he.page.get_by_text("Km, direction").click()
    he.press("9 o'clock")
    he.page.get_by_label("Bank").check()
    he.press("Save: middle in SS1")
    body = he.heard(1)[0]["data"]
    assert (body["direction"], body["cause"]) == (9, "bank")
    # SS1 is 7.3 km long in the fixture: its middle is 3.65, one decimal.
    assert body["km"] in (3.6, 3.7)
    assert "estimated" in body["note"]


@pytest.mark.longer
def test_damage_found_in_the_workshop_names_the_hit_that_caused_it(walk: Walk) -> None:
    he = walk("#/log")
    he.press("Left side")
    he.page.get_by_role("combobox", name="Where").select_option("workshop")
    he.page.get_by_text("Km, direction").click()
    hits = he.page.get_by_role("combobox", name="Found later: which hit did it?")
    chosen = hits.locator("option").nth(1).get_attribute("value")
    hits.select_option(chosen)
    he.press("Save")
    body = he.heard(1)[0]["data"]
    assert chosen
    assert (body["where"], body["caused_by"]) == ("workshop", chosen)


def test_nothing_seen_is_one_tap_a_second_one_says_nothing_more_and_it_is_undone_in_its_place(walk: Walk) -> None:
    he = walk("?empty#/log")
    he.page.get_by_role("button", name="Nothing seen, walked round").dblclick()
    he.page.get_by_role("heading", name="SS1: nothing seen ✓").wait_for()
    expect(he.page.get_by_role("button", name="Nothing seen,"), "SS2 is not driven yet").to_have_count(0)
    he.page.mouse.move(0, 0)  # a pointer that rests on the message keeps it, and it lies over the place
    he.page.get_by_role("button", name="Undo: SS1: nothing seen").click()
    he.page.get_by_role("heading", name="Nothing seen on SS1?").wait_for()
    said, undo = he.heard(2)
    assert (said["kind"], said["data"]) == ("stage.nothing_seen", {"stage": "SS1", "how": "walked-round"})
    assert (undo["kind"], undo["data"]["voids"]) == ("entry.voided", [said["id"]])


def test_making_one_of_two_versions_starts_with_the_worse_condition_and_drops_no_symptom(walk: Walk) -> None:
    he = walk("#/reports")
    he.page.get_by_role("link", name="Two versions").click()
    he.press("Make it one")
    he.press("Save the change")
    body = he.heard(1)[0]["data"]
    assert body["findings"] == [{"component": "sump-guard", "condition": "cracked"}]
    assert body["symptoms"] == ["long-pedal"]


def test_one_signature_over_a_place_says_of_each_job_what_its_checks_say(walk: Walk) -> None:
    he = walk("?who=p-gard#/place/front-left/inspect")
    he.page.get_by_role("heading", name="Inspect: Front left").wait_for()
    he.press("Sign")
    he.page.get_by_text("Answer every check before you sign.").wait_for()
    assert he.asked == []
    answer_all_ok(he.page)
    he.page.get_by_label("Not OK", exact=True).first.check()
    he.press("Sign: ")
    he.page.get_by_text("Type your PIN: an inspection is signed by the inspector alone.").wait_for()
    assert he.asked == []
    he.page.get_by_label("Your PIN, Gard").fill("246824")
    he.press("Sign: ")
    he.page.get_by_text("Signed and saved on this phone").wait_for()
    signed = he.asked
    for one in signed:
        said = [check["ok"] for check in one["data"]["checks"]]
        assert one["kind"] == ("inspection.failed" if False in said else "inspection.passed")
    assert {one["subject"].split("/")[0] for one in signed} == {"front-left"}


def test_who_is_no_inspector_is_told_so_and_can_sign_nothing(walk: Walk) -> None:
    he = walk("?who=p-tove#/place/front-left/inspect")
    he.page.get_by_text("Fetch one of them: Gard, Wren").wait_for()
    expect(he.page.get_by_role("button", name="Sign")).to_have_count(0)


@pytest.mark.longer
def test_a_repairer_is_warned_that_his_own_pass_will_not_count(walk: Walk) -> None:
    he = walk("?who=p-gard#/job/front-left/brake-hose")
    he.press("Finish …")
    he.page.get_by_label("Another part").fill("sum")
    he.press("Add: Sump guard")
    he.page.get_by_role("button", name="Finish", exact=True).click()
    finished = he.heard(1)[0]["data"]
    assert {"part": "guard-sump", "qty": 1} in finished["parts"]
    assert finished["repairers"] == ["p-gard"]
    assert finished["minutes"] is None, "a job that nobody started is not timed"
    he.page.get_by_role("link", name="Inspect", exact=True).click()
    he.page.get_by_text("you worked on it, so your pass will not count").first.wait_for()


@pytest.mark.longer
def test_a_cage_passes_only_with_the_officials_name_and_words(walk: Walk) -> None:
    he = walk("?who=p-wren#/job/cabin/door-bars")
    he.page.get_by_text("Call the scrutineer").wait_for()
    he.page.get_by_role("link", name="Inspect", exact=True).click()
    answer_all_ok(he.page)
    he.page.get_by_text("Your own tick does not count").wait_for()
    assert he.asked == []
    he.page.get_by_label("Official who saw it").fill("J. Brandt, scrutineer")
    he.page.get_by_label("What the official said").fill("May continue, show again at re-scrutineering")
    he.page.get_by_label("Your PIN, Wren").fill("246824")
    he.press("Sign: 1 passed")
    assert he.heard(1)[0]["data"]["official_said"].startswith("May continue")


def test_a_car_on_hold_is_released_only_with_a_reason(walk: Walk) -> None:
    he = walk("?who=p-gard#/service/release")
    he.press("Release the car on hold")
    he.page.get_by_text("Answer").first.wait_for()
    answer_asks(he.page)
    he.press("Release the car on hold")
    he.page.get_by_text("Write the reason first").wait_for()
    assert he.asked == []
    he.page.get_by_label("Reason, and who decided").fill("Chief: goes on the trailer")
    he.page.get_by_label("Your PIN, Gard").fill("246824")
    he.press("Release the car on hold")
    assert he.heard(1)[0]["data"]["reason"] == "Chief: goes on the trailer"


def test_the_officials_clock_decides_when_the_car_is_due_out(walk: Walk) -> None:
    """13:14:20 on the fixture's clock; the officials' board is two minutes behind."""
    he = walk("?empty#/service")
    earlier = he.page.get_by_role("button", name="Time in, on the officials' clock: −1", exact=True)
    earlier.click(click_count=2)
    he.press("We are in: 13:12")
    assert he.heard(1)[0]["data"] == {"service": "A", "official_time": "13:12"}
    # Service A takes 15 minutes in the fixture: due out 13:27.
    he.page.get_by_text("13:27").first.wait_for()
    he.page.get_by_text("due out 13:27").wait_for()


@pytest.mark.parametrize(("path", "title"), [("?advice=0#/queue", "On the road"), ("?advice=0#/service", "Service")])
def test_where_advice_is_forbidden_the_road_shows_no_hold(walk: Walk, path: str, title: str) -> None:
    he = walk(path)
    he.page.get_by_role("heading", name=title, exact=True).wait_for()
    expect(he.page.get_by_text("HOLD", exact=True)).to_have_count(0)


@pytest.mark.longer
def test_an_adjustment_needs_an_amount_and_takes_a_comma(walk: Walk) -> None:
    he = walk("?who=p-kaya#/costs")
    he.page.locator("section", has_text="Adjust a line").locator("select").select_option("front-left/wheel")
    he.page.get_by_label("Amount in EUR").fill("minus ten")
    he.press("Add this adjustment")
    he.page.get_by_text("Write an amount like").wait_for()
    he.page.get_by_label("Amount in EUR").fill("-12,50")
    he.page.get_by_label("Reason").fill("Agreed with the customer")
    he.press("Add this adjustment")
    assert he.heard(1)[0]["data"]["amount"] == "-12.50"
