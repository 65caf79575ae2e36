"""Every screen as WebKit lays it out: nothing sticks out or is too small for a glove, nothing promises too much."""

import re

from looking import ALLOWED, SAID, SMALL, TARGET, TARGET_IN_CAR, TOO_WIDE

from .conftest import Pockets
from .phone import WebKitPhone

SCREENS = [
    "log", "reports", "queue", "service", "costs", "me", "handover", "codes", "plan", "team", "briefing", "walk",
    "readings", "documents", "statement", "season", "setup", "incidents", "round", "arrival", "turn", "about",
]  # fmt: skip


def test_every_screen_of_the_manager_fits_a_phone(pocket: Pockets) -> None:
    vera = pocket("p-vera", "59")
    faults = {}
    for screen in SCREENS:
        vera.show(screen)
        if found := faults_of(vera):
            faults[screen] = found
    assert faults == {}


def faults_of(phone: WebKitPhone) -> list[str]:
    said = phone.run(f"return ({SAID})()")
    for sentence in ALLOWED:
        said = said.replace(sentence, "")
    promised = re.findall(r"(?i).*\b(?:un)?(?:safe|safely|clear|cleared)\b.*", said)
    wide = phone.run(f"return ({TOO_WIDE})()")
    return [*promised, *wide, *phone.run(f"return ({SMALL})(arguments[0])", [TARGET, TARGET_IN_CAR])]
