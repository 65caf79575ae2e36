"""Every screen, who sees it, and the taps that lead to it; on the sample event unless it says otherwise."""

import base64
from collections.abc import Callable
from dataclasses import dataclass

from playwright.sync_api import Page

Act = Callable[[Page], object]


@dataclass(frozen=True)
class Screen:
    """One state of a screen. `address` is what follows `#/`; `act` the taps from there."""

    name: str
    who: str
    address: str
    act: Act | None = None
    car: str = "41"


def tap(*names: str) -> Act:
    """Tap buttons one after the other."""

    def act(page: Page) -> None:
        for name in names:
            # Forced: a button that says why it can't be pressed yet is aria-disabled, and Playwright would wait for it.
            page.get_by_role("button", name=name).first.click(force=True)

    return act


def report(*names: str) -> Act:
    """Open the newest report that stands, and tap buttons there."""

    def act(page: Page) -> None:
        page.locator(".reports .ui-row").filter(has_not_text="Withdrawn").first.click()
        page.get_by_role("article").wait_for()
        tap(*names)(page)

    return act


def unfold(page: Page) -> None:
    """Open all that is folded."""
    page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")


def form(page: Page) -> None:
    tap("Front left")(page)
    page.get_by_label("Wheel rim", exact=True).check()


def more(page: Page) -> None:
    form(page)
    page.get_by_role("combobox", name="Where").select_option("stage")
    page.get_by_role("combobox", name="Stage").select_option("SS9")
    unfold(page)
    tap("More parts")(page)
    page.get_by_role("button", name="Save: middle in SS9").wait_for()


def saved(page: Page) -> None:
    form(page)
    tap("Save")(page)
    page.get_by_role("button", name="Log another").wait_for()


def withdrawn(page: Page) -> None:
    saved(page)
    # By key: what the card loads later moves the buttons, and a finger of the test's may come down between them.
    page.get_by_role("button", name="Undo").first.press("Enter")
    page.get_by_role("heading", name="Withdrawn").wait_for()


# One pixel, as no test of a screen needs more.
PICTURE = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNkYAAAAAYAAjCB0C8AAAAASUVORK5CYII="
)


def ring(page: Page) -> None:
    page.get_by_label("Photo first").set_input_files({"name": "a.png", "mimeType": "image/png", "buffer": PICTURE})
    page.get_by_text("1 photo is kept").wait_for()
    tap("Front left", "Mark the place")(page)
    page.get_by_role("button", name="Larger", exact=True).wait_for()
    unfold(page)


def answered(page: Page) -> None:
    page.get_by_label("Not as before").nth(1).check()
    page.get_by_label("Brake pedal spongy").check()


def restarts(page: Page) -> None:
    page.get_by_label("Yes", exact=True).last.check()
    page.get_by_role("group", name="Ready by").wait_for()


def ticked(page: Page) -> None:
    page.get_by_label("Been on its side or its roof").check()
    page.get_by_label("Wheel rim", exact=True).check()
    page.get_by_role("button", name="Save 2 findings").wait_for()


def codes(page: Page) -> None:
    page.get_by_role("checkbox").first.check()
    page.get_by_role("img", name="QR code 1 of 1").wait_for()


def many_codes(page: Page) -> None:
    for place in range(4):
        page.get_by_role("checkbox").nth(place).check()
    page.get_by_role("button", name="Stop at this code").click()


def bundle(page: Page) -> None:
    tap("Make the file")(page)
    page.get_by_role("link", name="Save it on this phone").wait_for()


def no_bundle(page: Page) -> None:
    page.locator("input[type=file]").set_input_files({"name": "a.zip", "mimeType": "application/zip", "buffer": b"no"})
    page.get_by_text("This file is damaged").wait_for()


def under(page: Page) -> None:
    page.get_by_label("Under", exact=True).check()


def beside(page: Page) -> None:
    page.get_by_label("Left", exact=True).check()


def finish(page: Page) -> None:
    tap("Finish …")(page)
    page.get_by_label("Timed", exact=True).check()


def all_ok(page: Page) -> None:
    page.get_by_label("OK", exact=True).first.wait_for()
    for ok in page.get_by_label("OK", exact=True).all():
        ok.check()


def not_ok(page: Page) -> None:
    """One check of each answer, and the finding of the one that is not OK about to be filed."""
    page.get_by_label("Not done", exact=True).nth(1).check()
    page.get_by_label("OK", exact=True).nth(2).check()
    page.get_by_label("Not OK", exact=True).first.check()
    tap("File what you found", "File it now")(page)


def wrong_amount(page: Page) -> None:
    tap("Add this adjustment")(page)
    page.get_by_text("Choose the line first").wait_for()


def planned(page: Page) -> None:
    """Have the service planned, or see the plan that is on the phone."""
    ask = page.get_by_role("button", name="Plan service")
    lanes = page.get_by_role("heading", name="Everybody")
    ask.or_(lanes).first.wait_for()
    if not lanes.count():
        ask.click()
    lanes.wait_for()


def planned_unfolded(page: Page) -> None:
    planned(page)
    unfold(page)


def team_planned(page: Page) -> None:
    """Have the cars planned together, or see the plan that is on the phone."""
    ask = page.get_by_role("button", name="Plan service E, cars")
    lanes = page.get_by_role("heading", name="Everybody")
    service = page.get_by_role("combobox", name="Which service")
    service.or_(lanes).first.wait_for()
    if not lanes.count():
        service.select_option("E")
        ask.click()
    lanes.wait_for()


def team_again(page: Page) -> None:
    team_planned(page)
    page.get_by_role("button", name="Say who is away").click()
    page.get_by_role("checkbox", name="Odil").check()
    page.get_by_role("checkbox", name="Car 42").uncheck()


def plan_again(page: Page) -> None:
    planned(page)
    page.get_by_text("Plan with other people or minutes").click()
    page.get_by_role("checkbox", name="Odil").check()
    page.get_by_role("group", name="How long is Odil away?").get_by_label("All of it").check()


def first_task(page: Page) -> None:
    planned(page)
    page.locator(".lane-task").first.click()
    page.get_by_role("link", name="Back to the plan").wait_for()


def paper(page: Page) -> None:
    planned(page)
    page.get_by_role("link", name="Job sheet").click()
    page.get_by_role("button", name="Print this sheet").wait_for()


def readings_touched(page: Page) -> None:
    unfold(page)
    page.get_by_label("Low", exact=True).first.check()
    page.get_by_role("button", name="Brake pads, Front left: +1", exact=True).click()


def walk_at(step: str) -> Act:
    """Begin a hand-over walk, or go on with it, at a step."""

    def act(page: Page) -> None:
        begin = page.get_by_role("button", name="Hand the car over")
        steps = page.get_by_role("navigation", name="Steps of the walk")
        begin.or_(steps).first.wait_for()
        if not steps.count():
            begin.click()
        steps.get_by_role("button", name=step).click()
        page.locator(f".walk-steps [aria-current=step]:has-text('{step}')").wait_for()
        unfold(page)

    return act


def walk_unsigned(page: Page) -> None:
    walk_at("Sign")(page)
    page.get_by_label("Is not present").check()


def walk_mark(page: Page) -> None:
    walk_at("Marks")(page)
    tap("Front left")(page)
    page.get_by_role("heading", name="what is marked?").wait_for()


def season_at(section: str) -> Act:
    """Choose a section of the season's screen, and wait until the server's answer is in it."""

    def act(page: Page) -> None:
        page.get_by_role("radio", name=section, exact=True).check()
        # Below three events a shopping list is a sentence: no stock is advised.
        page.locator("main section h2").or_(page.get_by_text("Counts only")).first.wait_for()
        unfold(page)

    return act


def document(page: Page) -> None:
    page.get_by_role("button", name="To print (PDF)").first.click()
    page.get_by_role("link", name="Save thornquell").wait_for()


def no_document(page: Page) -> None:
    # In a list, a paper is seen as soon as it is chosen; else it is asked for.
    listed = page.get_by_role("link", name="Hand-over of the car")
    place = page.get_by_role("region", name="Hand-over of the car")
    listed.or_(place).first.wait_for()
    (listed if listed.count() else place.get_by_role("button", name="To print (PDF)")).click()
    page.get_by_text("walk round it").wait_for()


CREW = [
    Screen("log", "p-toma", "log"),
    Screen("log, underside", "p-toma", "log", under),
    Screen("log, left side", "p-toma", "log", beside),
    Screen("log, form", "p-toma", "log", form),
    Screen("log, all of the form", "p-toma", "log", more),
    Screen("log, no place", "p-toma", "log", tap("No place")),
    Screen("log, nothing said", "p-toma", "log", tap("No place", "Save")),
    Screen("log, stopped", "p-toma", "log", tap("We have stopped")),
    Screen("log, saved", "p-toma", "log", saved),
    Screen("log, withdrawn", "p-toma", "log", withdrawn),
    Screen("log, a ring on a photo", "p-toma", "log", ring),
    Screen("log, nothing was shared", "p-toma", "log/shared"),
    Screen("change a report", "p-toma", "reports", report("Change")),
    Screen("change a report that is not here", "p-toma", "log/none"),
    Screen("ask the driver", "p-toma", "arrival"),
    Screen("turn", "p-toma", "turn"),
    Screen("retired", "p-toma", "retired"),
    Screen("retired, restarts", "p-toma", "retired", restarts),
    Screen("walk round", "p-toma", "round"),
    Screen("walk round, ticked", "p-toma", "round", ticked),
    Screen("reports", "p-toma", "reports"),
    Screen("reports, one", "p-toma", "reports", report()),
    Screen("reports, withdraw", "p-toma", "reports", report("Withdraw")),
    Screen("road", "p-toma", "queue"),
    Screen("road, check card", "p-toma", "job/front-right/brake-hose", unfold),
    Screen("service for the crew", "p-toma", "service"),
    Screen("plan, on the road", "p-toma", "plan"),
    Screen("team plan, on the road", "p-toma", "team"),
    Screen("briefing, none given", "p-toma", "briefing"),
    Screen("costs for the crew", "p-toma", "costs"),
    Screen("me", "p-toma", "me"),
    Screen("about", "p-toma", "about"),
    Screen("about, the cards of the first day", "p-toma", "about", tap("See the three cards", "Next")),
    Screen("documents for the crew", "p-toma", "documents", no_document),
    Screen("handover", "p-toma", "handover"),
    Screen("handover, file made", "p-toma", "handover", bundle),
    Screen("handover, damaged file", "p-toma", "handover", no_bundle),
    Screen("codes", "p-toma", "codes"),
    Screen("codes, one", "p-toma", "codes", codes),
    Screen("codes, many", "p-toma", "codes", many_codes),
    Screen("me, another person", "p-toma", "me", tap("Join another person")),
    Screen("needs review, for a crew", "p-toma", "aside"),
]
MECHANIC = [
    Screen("queue", "p-bodo", "queue"),
    Screen("queue, all unfolded", "p-bodo", "queue", unfold),
    Screen(
        "queue, several as done", "p-bodo", "queue", tap("More for this queue", "Mark several done", "Finish 0 jobs")
    ),
    Screen("queue of the other car", "p-bodo", "queue", car="42"),
    Screen("job", "p-bodo", "job/front-right/tyre"),
    Screen("job, hold unfolded", "p-bodo", "job/front-right/brake-hose", unfold),
    Screen("job, finish", "p-bodo", "job/front-right/tyre", finish),
    Screen("job, leave it", "p-bodo", "job/under-middle/brake-pipes-underfloor", tap("Leave it …")),
    Screen("place", "p-bodo", "place/front-right"),
    Screen("place, inspection without the role", "p-bodo", "place/front-right/inspect"),
    Screen("place that is not there", "p-bodo", "place/attic"),
    Screen("job, a part is short", "p-bodo", "job/rear-left/damper"),
    Screen("job, started", "p-bodo", "job/right-side/mirror", tap("Start")),
    Screen("job, finished", "p-bodo", "job/rear-left/wheel"),
    Screen("job, patched", "p-bodo", "job/front-end/front-bumper", car="42"),
    Screen("job, two versions", "p-bodo", "job/right-side/door", car="42"),
    Screen("job that is not there", "p-bodo", "job/roof/kite"),
    Screen("log in service", "p-bodo", "log"),
    Screen("reports of others", "p-bodo", "reports"),
    Screen("service", "p-bodo", "service"),
    Screen("release", "p-bodo", "service/release"),
    Screen("release, nothing answered", "p-bodo", "service/release", tap("Release the car on hold")),
    Screen("ask the driver, answered", "p-bodo", "arrival", answered),
    Screen("board", "p-bodo", "board"),
    Screen("plan, not asked for yet", "p-bodo", "plan"),
    Screen("plan", "p-bodo", "plan", planned),
    Screen("plan, all unfolded", "p-bodo", "plan", planned_unfolded),
    Screen("plan, other people", "p-bodo", "plan", plan_again),
    Screen("plan, a task", "p-bodo", "plan", first_task),
    Screen("plan, a task that is not in it", "p-bodo", "plan/task/none"),
    Screen("plan, the sheet", "p-bodo", "plan", paper),
    Screen("team plan, not asked for yet", "p-bodo", "team"),
    Screen("team plan", "p-bodo", "team", team_planned),
    Screen("team plan, other cars and people", "p-bodo", "team", team_again),
    Screen("briefing", "p-bodo", "briefing"),
    Screen("readings", "p-bodo", "readings"),
    Screen("readings, touched", "p-bodo", "readings", readings_touched),
    Screen("parts with a life, none", "p-bodo", "lives"),
    Screen("documents", "p-bodo", "documents", document),
]
INSPECTOR = [
    Screen("queue, inspector", "p-odil", "queue"),
    Screen("place, inspector", "p-odil", "place/front-right"),
    Screen("place with the cage", "p-odil", "place/cabin", car="42"),
    Screen("place with nothing open", "p-odil", "place/roof"),
    Screen("check lists", "p-odil", "looks"),
    Screen("inspections that do not count", "p-odil", "passes", unfold),
    Screen("inspect", "p-odil", "place/front-right/inspect/brake-hose"),
    Screen("inspect, nothing answered", "p-odil", "place/front-right/inspect/brake-hose", tap("Sign")),
    Screen("inspect, a finding to file", "p-odil", "place/front-right/inspect/brake-hose", not_ok),
    Screen("job, failed", "p-odil", "job/cabin/harness", car="42"),
    Screen("job, cage", "p-odil", "job/cabin/door-bars", car="42"),
    Screen("inspect, cage without the official", "p-odil", "place/cabin/inspect/door-bars", all_ok, car="42"),
    Screen("service, inspector", "p-odil", "service"),
    Screen("me, a new PIN", "p-odil", "me", tap("Your PIN on this phone", "Keep this PIN")),
]
MANAGER = [
    Screen("queue, manager", "p-vera", "queue"),
    Screen("costs", "p-vera", "costs"),
    Screen("costs, tables", "p-vera", "costs", unfold),
    Screen("documents, manager", "p-vera", "documents"),
    Screen("costs, wrong amount", "p-vera", "costs", wrong_amount),
    Screen("costs of the other car", "p-vera", "costs", car="42"),
    Screen("season", "p-vera", "season", season_at("Damage")),
    Screen("season, minutes", "p-vera", "season", season_at("Minutes")),
    Screen("season, better rates", "p-vera", "season", season_at("Better rates")),
    Screen("season, what to carry", "p-vera", "season", season_at("What to carry")),
    Screen("season, shopping list", "p-vera", "season", season_at("Shopping list")),
    Screen("job, manager", "p-vera", "job/front-right/tyre"),
    Screen("service, manager", "p-vera", "service"),
    Screen("plan, manager", "p-vera", "plan", planned),
    Screen("team plan, manager", "p-vera", "team", team_planned),
    Screen("me, manager", "p-vera", "me"),
    Screen("nothing needs review", "p-vera", "aside"),
    Screen("walk", "p-vera", "walk", car="42"),
    Screen("walk, photos", "p-vera", "walk", walk_at("Photos"), car="42"),
    Screen("walk, marks", "p-vera", "walk", walk_at("Marks"), car="42"),
    Screen("walk, one mark", "p-vera", "walk", walk_mark, car="42"),
    Screen("walk, figures", "p-vera", "walk", walk_at("Figures"), car="42"),
    Screen("walk, kit", "p-vera", "walk", walk_at("Kit"), car="42"),
    Screen("walk, sign", "p-vera", "walk", walk_unsigned, car="42"),
    Screen("set-up", "p-vera", "setup"),
    Screen("set-up, a table", "p-vera", "setup/thornquell-2026/operations"),
    Screen("set-up, a form", "p-vera", "setup/thornquell-2026/regulations"),
    Screen("set-up, a new event", "p-vera", "setup/thornquell-2026/new"),
]
EMPTY = [
    Screen("nothing logged: log", "p-toma", "log"),
    Screen("nothing logged: nothing seen", "p-toma", "log", tap("Nothing seen, walked round")),
    Screen("nothing logged: reports", "p-toma", "reports"),
    Screen("nothing logged: queue", "p-bodo", "queue"),
    Screen("nothing logged: service", "p-bodo", "service"),
    Screen("nothing logged: sheet without a plan", "p-bodo", "plan/sheet"),
    Screen("nothing logged: plan", "p-bodo", "plan", planned),
    Screen("nothing logged: briefing", "p-bodo", "briefing"),
    Screen("nothing logged: costs", "p-vera", "costs"),
    Screen("nothing logged: season", "p-vera", "season"),
]
