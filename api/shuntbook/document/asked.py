"""What is asked before a car leaves, in words of a paper."""

from shuntbook.document.wording import Wording
from shuntbook.queue.asks import Ask

ASKED = {
    "nuts": "wheel nuts torqued on the ground",
    "toe": "toe and steering wheel straight",
    "pedal": "pedal firm with the engine running",
    "tools": "tools counted",
}


def to_ask(ask: Ask, wording: Wording) -> str:
    """Return one thing to ask, with who may not answer it."""
    where = f", {wording.zone(ask.place)}" if ask.place else ""
    but = wording.say(", not by {names}", names=wording.people(ask.not_by)) if ask.not_by else ""
    return f"{wording.say(ASKED[ask.ask])}{where}{but}"
