"""How much of a request may be on its way, and for how long, before the edge refuses it."""

import re
from dataclasses import dataclass

from shuntbook.report.photo import MAX_BYTES
from shuntbook.web.api import PREFIX

KIB = 1024
LARGEST = MAX_BYTES + KIB
"""A photo is the largest body; a full batch of 500 entries has 8 MiB at most, and set-ups may be as large."""

UNKNOWN = 64 * KIB
"""More than this is taken from nobody but a phone that has joined."""

USUAL = 1024 * KIB

CAPS = (
    (re.compile(rf"{PREFIX}/join"), 16 * KIB),
    (re.compile(rf"{PREFIX}/(sync|rates|devices|photos/[^/]+|events/[^/]+(/files/check)?)"), LARGEST),
)
"""Paths and the most bytes that their bodies may have; all others take USUAL."""


def most_bytes(path: str) -> int:
    """Return how many bytes the body of a call may have."""
    return next((most for pattern, most in CAPS if pattern.fullmatch(path)), USUAL)


@dataclass(frozen=True)
class Limits:
    """What all bodies under way may take together.

    pause_s: longest time without a byte. From three such pauses on, a body must have come at `rate` bytes a second
    overall: a photo of 300 kB over a weak signal may take 100 s, and a body of a byte at a time ends.
    per_address, in_all: bodies that have not come whole yet; where they are more, the oldest ends, though never in
    its first `moment_s`. held: bytes of all bodies that are not answered yet, which lie in temporary files where they
    are large. drained_s: how long the rest of a refused body may still come.
    """

    pause_s: float = 10.0
    rate: int = 4 * KIB
    per_address: int = 64
    in_all: int = 512
    moment_s: float = 2.0
    held: int = 512 * KIB * KIB
    drained_s: float = 10.0

    def due_s(self, size: int) -> float:
        """Return how many seconds after its start a body that has come to `size` bytes must go on."""
        return 3 * self.pause_s + size / self.rate
