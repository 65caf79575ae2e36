"""Orca, Debian's screen reader, at the desk, and what it speaks."""

import queue
import re
import threading
from pathlib import Path

from .desk import PYTHON, Desk
from .listening import PATIENCE_S

SPOKEN = re.compile(r"SPEECH OUTPUT: '(.*)'(?: voice=\w+)?$")

ENDED = "Orca ended"


class Orca:
    """Without a speech dispatcher it speaks to nobody, and says in its log what it would have spoken."""

    def __init__(self, desk: Desk) -> None:
        self.spoken: list[str] = []
        self._lines: queue.Queue[str] = queue.Queue()
        settings = desk.folder / "home" / "orca"
        settings.mkdir()
        desk.environment["SPEECHD_CMD"] = "/bin/false"
        self._process = desk.run([PYTHON, str(Path(__file__).with_name("speaking.py")), "--user-prefs", str(settings)])
        threading.Thread(target=self._pump, daemon=True).start()
        self.speaks("Screen reader on.")

    def speaks(self, *expected: str) -> None:
        """Wait until these are spoken, in this order."""
        for text in expected:
            while self._next() != text:
                pass

    def _next(self) -> str:
        try:
            self.spoken.append(self._lines.get(timeout=PATIENCE_S))
        except queue.Empty:
            raise AssertionError("nothing more is spoken; so far:\n" + "\n".join(self.spoken)) from None
        assert self.spoken[-1] != ENDED, "Orca ended: its log is in the desk's folder"
        return self.spoken[-1]

    def _pump(self) -> None:
        assert self._process.stdout is not None
        for line in self._process.stdout:
            found = SPOKEN.match(line.rstrip("\n"))
            if found:
                self._lines.put(found[1].strip())
        self._lines.put(ENDED)
