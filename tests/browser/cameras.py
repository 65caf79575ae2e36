"""A phone whose camera sees what a test filmed, and whose microphone hears a beep: Chromium plays them itself."""

import io
import shutil
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from phones import FLAGS, SIZE, Phone
from PIL import Image, ImageFilter
from playwright.sync_api import Playwright

FRAME = (1280, 720)
FRAMES_EACH = 12
"""Pictures of each code, at Chromium's 20 or 30 a second: some looks of the app at 120 ms each."""
CODE_PX = 560


@contextmanager
def phone_with_camera(playwright: Playwright, film: Path) -> Iterator[Phone]:
    """A phone with a browser of its own, whose camera plays the film again and again once it is opened."""
    with _phone_with(playwright, [f"--use-file-for-fake-video-capture={film}"], "camera") as phone:
        yield phone


@contextmanager
def phone_with_microphone(playwright: Playwright) -> Iterator[Phone]:
    """A phone with a browser of its own, whose microphone hears a beep a second."""
    with _phone_with(playwright, [], "microphone") as phone:
        yield phone


@contextmanager
def _phone_with(playwright: Playwright, more: list[str], allowed: str) -> Iterator[Phone]:
    flags = [*FLAGS, "--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream", *more]
    browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=flags)
    try:
        phone = Phone(browser.new_context(viewport=SIZE, permissions=[allowed]))
        yield phone
        assert phone.complaints == []
    finally:
        browser.close()


def film_of(screens: Sequence[bytes], path: Path, turned_degrees: float = 4.0) -> None:
    """Write a film of another phone's screens: each turned a little, blurred a little, on a grey desk.

    screens: PNG pictures. Motion JPEG is one JPEG after the other.
    """
    with path.open("wb") as film:
        for number, screen in enumerate(screens):
            picture = _seen(screen, turned_degrees if number % 2 else -turned_degrees)
            film.write(picture * FRAMES_EACH)


def _seen(screen: bytes, degrees: float) -> bytes:
    code = Image.open(io.BytesIO(screen)).convert("L").resize((CODE_PX, CODE_PX), Image.Resampling.BICUBIC)
    code = code.point(lambda light: 30 + light * 190 // 255)
    desk = Image.new("L", FRAME, 110)
    mask = Image.new("L", code.size, 255)
    turned, mask = (one.rotate(degrees, Image.Resampling.BICUBIC, expand=True) for one in (code, mask))
    desk.paste(turned, ((FRAME[0] - turned.width) // 2, (FRAME[1] - turned.height) // 2), mask)
    out = io.BytesIO()
    desk.filter(ImageFilter.GaussianBlur(0.8)).convert("RGB").save(out, "JPEG", quality=80)
    return out.getvalue()
