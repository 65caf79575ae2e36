"""The crew's story in real browsers: work, looks, release, costs, and two phones that hear of each other."""

from decimal import Decimal

import pytest
from calls import calls_of, come_to_rest, hears
from crew import PIN, Crew, Member, answer_all_ok, answer_asks
from looking import promises
from phones import wait_until
from playwright.sync_api import expect


def test_a_mechanic_starts_stops_starts_and_finishes_with_minutes_and_parts(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Front left", "Tyre", "Flat")
    [report] = toma.wrote("report.filed")
    page = bodo.opens("front-left/tyre")
    bodo.tap("Start", exact=True)
    bodo.sees("Bodo, from")
    bodo.sees("Being worked on")
    # What a Save asks of the server: one sync, and the queue where that is on the screen; nothing because of itself.
    come_to_rest([toma, bodo])
    with calls_of(toma) as of_toma, calls_of(bodo) as of_bodo:
        bodo.tap("Stop, not finished")
        bodo.wrote("job.stopped")
        page.get_by_role("button", name="Start", exact=True).wait_for()
        hears(toma, of_toma, "POST sync")
        hears(bodo, of_bodo, "POST sync", "GET queue")
        bodo.tap("Start", exact=True)
        [first, second] = bodo.wrote("job.started", 2)
        hears(toma, of_toma, "POST sync")
        hears(bodo, of_bodo, "POST sync", "GET queue")
    assert bodo.wrote("job.stopped")[0]["data"]["ends"] == [first["id"]]
    bodo.sees("Bodo, from")
    bodo.tap("Finish …")
    expect(page.get_by_label("Timed", exact=True), "who started is timed").to_be_checked()
    bodo.tap("Minutes it took: +5")
    bodo.tap("Mechanics: +1")
    bodo.tap("Gravel tyre, 15 inch, medium: +1")
    bodo.tap("Finish", exact=True)
    bodo.sees("Finished")
    [finished] = bodo.wrote("job.finished")
    said = finished["data"]
    assert (said["covers"], said["ends"]) == ([report["id"]], [second["id"]])
    # A minute at least and the five that were added: the story takes no longer than that on any machine.
    assert (said["minutes"], said["mechanics"], said["temporary"]) == (6, 2, False)
    assert (said["parts"], said["repairers"]) == ([{"part": "tyre-gravel-15", "qty": 2}], ["p-bodo"])
    assert bodo.server.job(bodo.car, "front-left/tyre")["state"] == "finished"


@pytest.mark.longer
def test_a_temporary_repair_is_not_timed_and_comes_back(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Front end", "Front bumper", "Loose")
    page = bodo.opens("front-end/front-bumper")
    bodo.tap("Finish …")
    expect(page.get_by_label("Not timed"), "nobody started").to_be_checked()
    page.get_by_label("For now: it comes back").check()
    bodo.tap("Finish", exact=True)
    bodo.sees("Saved: a temporary repair.")
    bodo.sees("Patched: temporary, comes back")
    [finished] = bodo.wrote("job.finished")
    assert (finished["data"]["temporary"], finished["data"]["minutes"]) == (True, None)
    queue = bodo.server.queue(bodo.car)
    assert [job["state"] for job in queue["jobs"] if job["job"] == "front-end/front-bumper"] == ["patched"]
    assert Decimal(queue["totals"]["labour"]) > 0, "it is still to be done"


@pytest.mark.parametrize(
    ("where", "to"),
    [("Next service", "next-service"), pytest.param("The crew, on the road", "road", marks=pytest.mark.longer)],
    ids=["service", "road"],
)
def test_a_job_is_left_knowingly_with_a_reason(crew: Crew, where: str, to: str) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Left side", "Mirror", "Broken")
    page = bodo.opens("left-side/mirror")
    bodo.tap("Leave it …")
    page.get_by_label(where).check()
    page.get_by_label("Or in your own words").fill("Glass is in the boot")
    bodo.tap("Leave it", exact=True)
    bodo.sees("Deferred")
    [deferred] = bodo.wrote("job.deferred")
    assert (deferred["data"]["to"], deferred["data"]["reason"]) == (to, "Glass is in the boot")
    assert bodo.server.job(bodo.car, "left-side/mirror")["state"] == "deferred"


@pytest.mark.longer
def test_a_mis_tap_is_undone_and_the_job_stands_as_before(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Left side", "Mirror", "Broken")
    page = bodo.opens("left-side/mirror")
    bodo.finishes("left-side/mirror")
    bodo.sees("Finished")
    bodo.tap("Undo", exact=True)
    page.get_by_role("button", name="Start", exact=True).wait_for()
    [finished], [voided] = bodo.wrote("job.finished"), bodo.wrote("entry.voided")
    assert voided["data"]["voids"] == [finished["id"]]
    wait_until(page, lambda: bodo.server.job(bodo.car, "left-side/mirror")["state"] == "open")
    page.get_by_text("Finished", exact=True).wait_for(state="detached")


@pytest.mark.longer
def test_one_tap_passes_all_looks_of_a_corner_and_one_undo_takes_them_back(crew: Crew) -> None:
    toma, odil = crew("p-toma"), crew("p-odil")
    toma.logs("Front right", "Wheel rim", "Bent")
    toma.wrote("report.filed")
    looks = [job["job"] for job in odil.server.queue(odil.car)["jobs"] if job["safety_critical"]]
    assert len(looks) > 2, "a bent rim makes the crew look at hose, arm and steering"
    odil.at("queue")
    odil.page.get_by_role("link", name=f"Inspect {len(looks)} at Front right corner").click()
    odil.signs()
    odil.sees(f"Signed: {len(looks)} passed.")
    odil.tap("Undo", exact=True)  # gone after six seconds
    passes = odil.wrote("inspection.passed", len(looks))
    assert sorted(one["subject"] for one in passes) == sorted(looks)
    odil.at("queue")
    odil.sees("HOLD")
    [voided] = odil.wrote("entry.voided")
    assert sorted(voided["data"]["voids"]) == sorted(one["id"] for one in passes)
    assert odil.server.queue(odil.car)["release"] == "hold"


@pytest.mark.longer
def test_a_failed_look_holds_the_car_until_repair_and_another_look(crew: Crew) -> None:
    toma, bodo, odil = crew("p-toma"), crew("p-bodo"), crew("p-odil")
    toma.logs("Rear left", "Brake hose", "Marked")
    page = odil.opens("rear-left/brake-hose")
    page.get_by_role("link", name="Inspect", exact=True).click()
    odil.tap("Sign", exact=True)
    odil.sees("Answer every check before you sign.")
    page.get_by_label("Note").fill("Sweats at the crimp")
    odil.signs(passes=False)
    odil.sees("Signed: 1 not passed.")
    odil.at("job/rear-left/brake-hose")
    odil.sees("Inspection failed")
    [failed] = odil.wrote("inspection.failed")
    first, *others = (one["ok"] for one in failed["data"]["checks"])
    assert (first, set(others)) == (False, {True})
    assert failed["data"]["note"] == "Sweats at the crimp"
    assert odil.server.queue(odil.car)["hold_reasons"][0]["needs"] == "re-inspection"
    bodo.finishes("rear-left/brake-hose")
    bodo.wrote("job.finished")
    odil.opens("rear-left/brake-hose")
    odil.sees("Finished")
    odil.inspects("rear-left/brake-hose")
    odil.sees("Nothing open in the log")
    assert odil.server.job(odil.car, "rear-left/brake-hose")["inspection"] == "passed"


@pytest.mark.longer
def test_a_repairers_own_pass_changes_nothing_and_another_inspectors_does(crew: Crew) -> None:
    toma, anni, odil = crew("p-toma"), crew("p-anni"), crew("p-odil")
    toma.logs("Rear left", "Brake hose", "Marked")
    anni.finishes("rear-left/brake-hose")
    anni.wrote("job.finished")
    page = anni.opens("rear-left/brake-hose")
    anni.sees("Finished")
    page.get_by_role("link", name="Inspect", exact=True).click()
    anni.sees("Brake hose: you worked on it, so your pass will not count.")
    anni.signs()
    anni.wrote("inspection.passed")
    assert anni.server.job(anni.car, "rear-left/brake-hose")["inspection"] == "needed"
    anni.at("queue")
    page.get_by_text("HOLD").first.wait_for()
    assert anni.server.queue(anni.car)["release"] == "hold"
    odil.inspects("rear-left/brake-hose")
    odil.wrote("inspection.passed")
    assert odil.server.job(odil.car, "rear-left/brake-hose")["inspection"] == "passed"
    anni.sees("Nothing open in the log")


@pytest.mark.longer
def test_a_late_report_opens_a_passed_job_again_and_is_new(crew: Crew) -> None:
    toma, odil = crew("p-toma"), crew("p-odil")
    toma.logs("Rear left", "Brake hose", "Marked")
    odil.inspects("rear-left/brake-hose")
    odil.at("queue")
    odil.sees("Nothing open in the log")
    odil.tap("Seen", exact=True)
    odil.page.get_by_role("button", name="Seen", exact=True).wait_for(state="detached")
    toma.logs("Rear left", "Brake hose", "Leaking")
    odil.sees("1 new since you looked")
    odil.sees("HOLD")
    odil.page.locator(".ui-tag", has_text="again").wait_for()
    [_, late] = toma.wrote("report.filed", 2)
    assert odil.server.job(odil.car, "rear-left/brake-hose")["uncovered"] == [late["id"]]


def test_a_cage_passes_only_by_the_officials_words(crew: Crew) -> None:
    toma, odil = crew("p-toma"), crew("p-odil")
    toma.logs("Cabin", "Cage: door bars", "Marked")
    page = odil.opens("cabin/door-bars")
    odil.sees("Call the scrutineer or the event official now.")
    assert "Cage: door bars cage: an official must see it" in odil.why()
    page.get_by_role("link", name="Inspect", exact=True).click()
    answer_all_ok(page)
    odil.sees("Your own tick does not count for a cage.")
    page.get_by_label("Official who saw it").fill("K. Lorn, scrutineer")
    page.get_by_label("What the official said").fill("Paint only. May continue, show at the finish.")
    page.get_by_text("Your own tick does not count").wait_for(state="detached")
    odil.signs()
    odil.at("queue")
    odil.sees("Nothing open in the log")
    [passed] = odil.wrote("inspection.passed")
    assert passed["data"]["shown_to"] == "K. Lorn, scrutineer"
    assert passed["data"]["official_said"] == "Paint only. May continue, show at the finish."
    assert odil.server.job(odil.car, "cabin/door-bars")["inspection"] == "passed"


@pytest.mark.longer
def test_the_hold_bar_names_every_reason_and_then_says_only_what_the_log_holds(crew: Crew) -> None:
    toma, bodo, odil = crew("p-toma"), crew("p-bodo"), crew("p-odil")
    toma.logs("Rear left", "Brake hose", "Marked")
    toma.logs("Front left", "Track-rod end", "Marked")
    bodo.opens("front-left/track-rod-end")
    bodo.at("queue")
    bodo.sees("2 to inspect")
    reasons = bodo.why()[:4]
    assert sorted(zip(reasons[::2], reasons[1::2], strict=True)) == [
        ("Front left corner", "Track-rod end needs an inspector"),
        ("Rear left corner", "Brake hose needs an inspector"),
    ]
    odil.inspects("rear-left/brake-hose")
    bodo.sees("1 to inspect")
    assert bodo.why()[:2] == ["Front left corner", "Track-rod end needs an inspector"]
    odil.inspects("front-left/track-rod-end")
    bodo.sees("Nothing open in the log")
    only = "That says only what the log holds. Event officials, local rules and licensed practice decide."
    assert bodo.why()[0] == only
    for screen in ("queue", "service", "job/rear-left/brake-hose"):
        bodo.at(screen)
        bodo.sees("Nothing open in the log")
        assert promises(bodo.page) == []
    assert bodo.server.queue(bodo.car)["release"] == "nothing-open"
    page = bodo.at("service")
    page.get_by_role("link", name="Release the car").click()
    bodo.tap("Release the car", exact=True)
    bodo.sees("questions are open")
    answer_asks(page)
    bodo.tap("Release the car", exact=True)
    bodo.sees("Released by Bodo")
    [released] = bodo.wrote("car.released")
    assert "reason" not in released["data"]
    said = {(one["ask"], one["place"]): one["ok"] for one in released["data"]["answers"]}
    assert said == {("nuts", "front-left"): True, ("nuts", "rear-left"): True, ("tools", ""): True}


@pytest.mark.longer
def test_a_car_on_hold_is_released_with_a_reason_only(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Rear left", "Brake hose", "Leaking")
    [report] = toma.wrote("report.filed")
    bodo.chooses_pin()
    page = bodo.opens("rear-left/brake-hose")
    bodo.at("service/release")
    answer_asks(page)
    bodo.tap("Release the car on hold")
    bodo.sees("Write the reason first")
    page.get_by_label("Reason, and who decided").fill("Vera: goes on the trailer, not on its wheels")
    bodo.tap("Release the car on hold")
    bodo.sees("Type your PIN")
    page.get_by_label("Your PIN, Bodo").fill(PIN)
    bodo.tap("Release the car on hold")
    bodo.sees("Released by Bodo")
    [released] = bodo.wrote("car.released")
    assert released["data"] == {
        "service": "A",
        "covers": [report["id"]],
        "reason": "Vera: goes on the trailer, not on its wheels",
        "answers": [{"ask": "tools", "place": "", "entries": [], "ok": True, "by": "p-bodo"}],
    }
    assert bodo.server.queue(bodo.car)["release"] == "hold", "a release is a fact and signs nothing off"


@pytest.mark.longer
def test_parts_that_the_van_has_not_are_said_in_words(crew: Crew) -> None:
    """The van was loaded with one rear damper that fits both sides."""
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Rear left", "Rear damper", "Leaking")
    toma.logs("Rear right", "Rear damper", "Leaking")
    bodo.opens("rear-right/damper")
    bodo.sees("1 × Rear damper, fits both sides")
    bodo.sees("0 in the van: 1 short")
    page = bodo.opens("rear-left/damper")
    bodo.sees("1 × Rear damper, fits both sides")
    expect(page.get_by_text("short"), "the first in the queue gets the one that there is").to_have_count(0)


@pytest.mark.longer
def test_the_crew_sees_the_queue_in_a_service_only(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Rear left", "Brake hose", "Leaking")
    bodo.opens("rear-left/brake-hose")
    page = toma.at("queue")
    toma.sees("On the road")
    expect(page.get_by_text("HOLD", exact=True)).to_have_count(0)
    toma.at("service")
    expect(page.get_by_text("HOLD", exact=True)).to_have_count(0)
    expect(page.get_by_role("link", name="See the queue")).to_have_count(0)
    toma.tap("We are in")
    toma.sees("HOLD")
    page.get_by_role("link", name="See the queue").click()
    page.get_by_role("heading", name="Queue").wait_for()
    page.get_by_role("link", name="Open job: Rear left corner: Brake hose").wait_for()
    toma.at("service")
    toma.tap("We are out")
    page.get_by_text("HOLD", exact=True).wait_for(state="detached")
    toma.at("queue")
    toma.sees("On the road")
    [entered], [left] = toma.wrote("service.entered"), toma.wrote("service.left")
    assert entered["data"]["service"] == left["data"]["service"] == "A"


@pytest.mark.longer
def test_the_cost_sheet_shows_the_servers_cents_and_an_adjustment_moves_them(crew: Crew) -> None:
    toma, bodo, vera = crew("p-toma"), crew("p-bodo"), crew("p-vera")
    toma.logs("Left side", "Mirror", "Broken")
    toma.logs("Front end", "Front bumper", "Loose")
    bodo.finishes("left-side/mirror")
    bodo.wrote("job.finished")
    page = vera.at("costs")
    page.locator(".totals").wait_for()
    wait_until(page, lambda: shown_totals(vera) == served_totals(vera))
    before = shown_totals(vera)
    assert before["Actual"] > 0
    page.get_by_role("combobox", name="Line").select_option("left-side/mirror")
    page.get_by_label("Amount in EUR").fill("-12,50")
    page.get_by_label("Reason").fill("Agreed with the customer")
    vera.tap("Add this adjustment")
    page.get_by_role("heading", name="Adjusted lines").wait_for()
    wait_until(page, lambda: before != shown_totals(vera) == served_totals(vera))
    after = shown_totals(vera)
    # 19 % tax, as the sample's rates.toml says; half up to the cent.
    net = before["Before tax"] - Decimal("12.50")
    assert (after["Before tax"], after["Adjustments"]) == (net, Decimal("-12.50"))
    assert abs(after["Total"] - net * Decimal("1.19")) <= Decimal("0.005")


def shown_totals(who: Member) -> dict[str, Decimal]:
    rows = who.page.locator(".totals tr").all()
    return {
        row.locator("th").inner_text(): Decimal(
            row.locator("td").inner_text().removesuffix(" EUR").replace(",", "").replace("−", "-")
        )
        for row in rows
    }


def served_totals(who: Member) -> dict[str, Decimal]:
    totals = who.server.costs(who.car)["totals"]
    names = ["Estimate", "Actual", "Adjustments", "Before tax", "Tax 19 %", "Total"]
    keys = ["estimate", "actual", "adjustments", "before_tax", "tax", "total"]
    return {name: Decimal(totals[key]) for name, key in zip(names, keys, strict=True)}


@pytest.mark.longer
def test_the_driver_is_asked_and_what_is_not_as_before_is_a_report(crew: Crew) -> None:
    bodo = crew("p-bodo")
    bodo.at("arrival")
    bodo.tap("All as before")
    page = bodo.page
    page.get_by_role("heading", name="Service", exact=True).wait_for()
    [asked] = bodo.wrote("driver.asked")
    assert [answer["as_before"] for answer in asked["data"]["answers"]] == [True] * 7
    bodo.at("arrival")
    pedal = page.get_by_role("group", name="Brake pedal as it should be?")
    pedal.get_by_label("Not as before").check()
    page.get_by_label("Brake pedal spongy").check()
    page.get_by_role("group", name="Gearbox and clutch?").get_by_label("Not as before").check()
    bodo.tap("Save 2 answers")
    [report] = bodo.wrote("report.filed")
    assert report["data"]["symptoms"] == ["soft-pedal"]
    assert report["data"]["note"] == "Driver says not as before: gearbox or clutch"
    wait_until(page, lambda: bodo.server.queue(bodo.car)["release"] == "hold")


@pytest.mark.longer
def test_in_parc_ferme_the_work_buttons_are_shut_and_say_why(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Left side", "Mirror", "Broken")
    toma.at("service")
    toma.tap("Into parc fermé")
    [control] = toma.wrote("control.entered")
    page = bodo.opens("left-side/mirror")
    bodo.sees("Shut: the car is in parc fermé since")
    expect(page.get_by_role("button", name="Start", exact=True)).to_be_disabled()
    bodo.tap("Finish …")
    bodo.sees("Only what was done before.")
    bodo.tap("Finish", exact=True)
    [finished] = bodo.wrote("job.finished")
    assert finished["said_at"][11:16] == control["data"]["official_time"]
    bodo.at("service")
    bodo.tap("Out of it")
    page.get_by_role("button", name="Into parc fermé").wait_for()
    [left] = bodo.wrote("control.left")
    assert left["data"]["ends"] == [control["id"]]


def test_who_has_stopped_is_given_the_road_books_number_and_a_phone_that_spares_its_battery(crew: Crew) -> None:
    toma = crew("p-toma")
    toma.at("log")
    toma.tap("We have stopped")
    call = toma.page.get_by_role("link", name="Call +43 555 0112 (road book)")
    expect(call).to_have_attribute("href", "tel:+435550112")
    toma.tap("Done, log it now")
    toma.tap("Front left")
    toma.tap("Save", exact=True)
    toma.sees("This phone spares its battery now")


@pytest.mark.longer
def test_a_walk_round_is_kept_through_a_reload_and_is_one_save(crew: Crew) -> None:
    toma = crew("p-toma")
    page = toma.at("round")
    page.get_by_label("Been on its side or its roof").check()
    toma.tap("Front left")
    page.get_by_label("Wheel rim", exact=True).check()
    page.get_by_label("Bent", exact=True).check()
    page.reload()
    toma.tap("Left side")
    page.get_by_label("Mirror", exact=True).check()
    toma.tap("Start over")
    page.get_by_role("button", name="nothing is ticked yet").wait_for()
    toma.tap("Bring them back")
    toma.tap("Save 3 findings")
    page.get_by_role("heading", name="Reports", exact=True).wait_for()
    found = [
        (one["data"].get("zone"), one["data"].get("symptoms", []), named(one)) for one in toma.wrote("report.filed", 3)
    ]
    assert found == [
        (None, ["rolled"], []),
        ("front-left", [], [("wheel", "bent")]),
        ("left-side", [], [("mirror", "broken")]),
    ]
    toma.at("round")
    page.get_by_role("button", name="nothing is ticked yet").wait_for()


def named(report: dict) -> list[tuple[str, str]]:
    return [(one["component"], one["condition"]) for one in report["data"].get("findings", [])]


def test_what_one_phone_logs_the_other_shows_without_a_reload(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    bodo.at("queue")
    bodo.sees("No jobs")
    bodo.page.evaluate("window.neverReloaded = true")
    toma.logs("Rear left", "Mud flap", "Missing")
    bodo.page.get_by_role("link", name="Open job: Rear left corner: Mud flap").wait_for()
    bodo.opens("rear-left/mud-flap")
    bodo.tap("Start", exact=True)
    bodo.wrote("job.started")
    assert bodo.page.evaluate("window.neverReloaded")
