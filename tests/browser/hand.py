"""What a hand does on a phone, counted, and how long that takes by the keystroke-level model: computed, never timed."""

import time

from playwright.sync_api import Locator, Page

# Keystroke-level model: Card, Moran, Newell, "The keystroke-level model for user performance time with interactive
# systems", CACM 23(7), 1980; B: Kieras's guide to it. Values from memory, in seconds: a key by an average typist and by
# one who does not know the keyboard, pointing, homing to another device, thinking before a step, a button down or up.
K_AVERAGE, K_WORST, P, H, M, B = 0.28, 1.20, 1.10, 0.40, 1.35, 0.10
TAP = P + 2 * B
"""Move there, finger down, finger up."""
DISTRACTED = 1.21
"""What a second task at the same time adds. From memory, source not at hand."""


def modelled_s(
    taps: int, thoughts: int, swipes: int = 0, keys: int = 0, homings: int = 0, key: float = K_AVERAGE
) -> float:
    """Return the model's seconds for what was counted. A swipe is one movement, as pointing is."""
    return taps * TAP + thoughts * M + swipes * P + keys * key + homings * H


class Counted:
    """Counts taps, swipes to what is not in sight, keys, changes between hand and keyboard, and thoughts by name."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.taps = self.swipes = self.keys = self.homings = 0
        self.thoughts: list[str] = []
        self.started = time.monotonic()
        self.waited = 0.0

    def tap(self, target: Locator, thought: str | None = "where next", x: float | None = None) -> None:
        """Tap, swiping there first. thought: what is decided before it; None where the last one covers it."""
        target.wait_for()
        if not in_sight(target):
            self.swipes += 1
            target.evaluate("one => one.scrollIntoView({ block: 'center' })")
        target.click(position=None if x is None else {"x": x, "y": 20})
        self.taps += 1
        if thought is not None:
            self.thoughts.append(thought)

    def type(self, text: str, thought: str = "what to write") -> None:
        self.page.keyboard.type(text)
        self.keys += len(text)
        self.homings += 2
        self.thoughts.append(thought)

    def stop(self) -> None:
        self.waited = time.monotonic() - self.started

    def seconds(self, key: float = K_AVERAGE) -> float:
        """The model's time of what was counted."""
        return modelled_s(self.taps, len(self.thoughts), self.swipes, self.keys, self.homings, key)


# What lies over it (the save bar, the foot) takes the tap: then a hand swipes first.
IN_SIGHT = """one => {
  const box = one.getBoundingClientRect();
  const seen = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
  return seen !== null && (one.contains(seen) || one.closest('label')?.contains(seen) === true);
}"""


def in_sight(target: Locator) -> bool:
    """Say whether a finger finds the target's middle without moving the page."""
    answer: bool = target.evaluate(IN_SIGHT)
    return answer
