"""An X server that shows nothing to anybody, on a number that was free, and what can be seen on it."""

import os
import subprocess
from dataclasses import dataclass
from itertools import count

from PIL import Image, ImageGrab

from leash import leashed

PHONES = 3
"""That many windows stand side by side; nothing on the screen moves them apart."""
PLACE_PX = 400
HEIGHT_PX = 860


@dataclass
class Screen:
    """A running X server. name: its display, such as ":7"."""

    name: str
    process: subprocess.Popen[bytes]

    def __post_init__(self) -> None:
        self._places = count()

    def place(self) -> int:
        """Return where the next window begins, in pixels from the left."""
        return next(self._places) % PHONES * PLACE_PX

    def seen(self, left: int, width: int, height: int) -> Image.Image:
        """Return what is shown there."""
        return ImageGrab.grab((left, 0, left + width, height), xdisplay=self.name)

    def close(self) -> None:
        """End the X server."""
        self.process.kill()
        self.process.wait(30)


def start_screen() -> Screen:
    """Start an X server. It picks its number itself, so that two runs never take the same."""
    reading, writing = os.pipe()
    size = f"{PHONES * PLACE_PX}x{HEIGHT_PX}x24"
    command = ["Xvfb", "-displayfd", str(writing), "-screen", "0", size, "-nolisten", "tcp"]
    process = subprocess.Popen(
        leashed(command), pass_fds=[writing], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    os.close(writing)
    with os.fdopen(reading, "rb") as told:
        number = told.readline().decode().strip()  # empty where it ended instead
    assert number, "Xvfb did not start"
    return Screen(f":{number}", process)
