"""What is heard at the desk, as lines to hold against those that are expected."""

import json
import queue
import threading
import time
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from .desk import PYTHON, Desk

PATIENCE_S = 60
PASSING = {
    "polite: Loading this screen …",
    "polite: What the log holds of this car: Not known yet",
}
"""What is heard only where an answer is slow."""
PAGE = "document web:"
"""It has the focus for a moment while what had it makes way for what takes it; where it keeps it, `is_at` fails."""
ENDED = {"heard": "ended", "says": "", "group": ""}


class Listener:
    """The ear at the accessibility bus, and what it has heard since it was asked last."""

    def __init__(self, desk: Desk) -> None:
        self.heard: list[str] = []
        self.gone: list[str] = []
        """What could not be asked about any more; told with a line that is missed, since it may have been that one."""
        self._lines: queue.Queue[dict[str, Any]] = queue.Queue()
        self._ear = desk.run([PYTHON, str(Path(__file__).with_name("ear.py"))])
        threading.Thread(target=self._pump, daemon=True).start()
        assert self._next()["heard"] == "ready"

    def press(self, key: str) -> None:
        self._order(f"key {key}")

    def hears(self, expected: Sequence[str]) -> None:
        """Wait for lines, in any order; each must be heard just so often, and nothing else with them.

        What is heard a second time later on is found by whoever asks next.
        """
        while Counter(expected) - Counter(self.heard):
            self._take(self._next())
        assert sorted(self.heard) == sorted(expected), f"heard {self.heard}, not {list(expected)}"
        self.heard.clear()

    def waits_for(self, line: str) -> None:
        """Wait until this was heard, whatever came before it."""
        while line not in self.heard:
            self._take(self._next())
        self.heard.clear()

    def is_at(self, expected: str) -> None:
        """Wait until this has the focus, by the tree itself."""
        end = time.monotonic() + PATIENCE_S
        while (at := self._ask("where")) and time.monotonic() < end:
            if _words(at) == expected:
                return
        raise AssertionError(f"the focus is at {_words(at)!r}, not at {expected!r}")

    def reads(self) -> list[str]:
        """Return all of the page that is in sight, from its top."""
        answer: list[str] = self._ask("read")["lines"]
        return answer

    def _ask(self, order: str) -> dict[str, Any]:
        self._order(order)
        while (line := self._next())["heard"] != order:
            self._take(line)
        return line

    def _take(self, line: dict[str, Any]) -> None:
        words = _words(line) if line["heard"] == "focus" else f"{line['heard']}: {line['says']}"
        if line["heard"] == "gone":
            self.gone.append(line["says"])
        elif words not in PASSING and not words.startswith(PAGE):
            self.heard.append(words)

    def _order(self, order: str) -> None:
        assert self._ear.stdin is not None
        self._ear.stdin.write(order + "\n")
        self._ear.stdin.flush()

    def _next(self) -> dict[str, Any]:
        try:
            line = self._lines.get(timeout=PATIENCE_S)
        except queue.Empty:
            missed = f"nothing more is heard; since the last step: {self.heard}; gone: {self.gone}"
            raise AssertionError(missed) from None
        assert line != ENDED, "the ear ended: its log is in the desk's folder"
        return line

    def _pump(self) -> None:
        assert self._ear.stdout is not None
        for line in self._ear.stdout:
            self._lines.put(json.loads(line))
        self._lines.put(ENDED)


def _words(line: dict[str, Any]) -> str:
    """Return a thing with its group behind it."""
    answer: str = (line["says"] + (f" [{line['group']}]" if line["group"] else "")).strip()
    return answer
