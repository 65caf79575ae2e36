"""A phone whose camera sees what a test filmed, and whose microphone hears a beep.

Chromium plays the film itself. Firefox's false camera shows colours only: there the page is given a stream of pictures
of the film in place of it, and what the app does with a camera's stream is the same.
"""

import base64
import io
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from engines import engine
from phones import SIZE, Phone
from PIL import Image, ImageFilter
from playwright.sync_api import BrowserContext, Playwright

FRAME = (1280, 720)
FRAMES_EACH = 12
"""Pictures of each code, at Chromium's 20 or 30 a second: some looks of the app at 120 ms each."""
CODE_PX = 560
END_OF_JPEG = b"\xff\xd9"

# A page of no address, such as the first one, has no devices.
FILMED = """if (navigator.mediaDevices) navigator.mediaDevices.getUserMedia = async () => {
  const bytes = (text) => Uint8Array.from(atob(text), (one) => one.charCodeAt(0));
  const made = (await window.pictures()).map((text) => createImageBitmap(new Blob([bytes(text)])));
  const pictures = await Promise.all(made);
  const canvas = Object.assign(document.createElement('canvas'), { width: 1280, height: 720 });
  const stream = (canvas.getContext('2d'), canvas.captureStream());
  let at = 0;
  const show = () => {
    canvas.getContext('2d').drawImage(pictures[at++ % pictures.length], 0, 0);
    if (stream.active) setTimeout(show, 500);
  };
  show();
  return stream;
};"""


@contextmanager
def phone_with_camera(playwright: Playwright, film: Path) -> Iterator[Phone]:
    """A phone with a browser of its own, whose camera plays the film again and again once it is opened."""
    with _phone_with(playwright, "camera", film) as phone:
        yield phone


@contextmanager
def phone_with_microphone(playwright: Playwright) -> Iterator[Phone]:
    """A phone with a browser of its own, whose microphone hears a beep a second, in Firefox a tone that goes on."""
    with _phone_with(playwright, "microphone", None) as phone:
        yield phone


@contextmanager
def _phone_with(playwright: Playwright, allowed: str, film: Path | None) -> Iterator[Phone]:
    of = engine()
    browser = of.launch_with_media(playwright, film)
    try:
        context = browser.new_context(viewport=SIZE, permissions=[allowed] if of.name == "chromium" else [])
        if film is not None and of.name == "firefox":
            _show(film, context)
        phone = Phone(context)
        yield phone
        assert phone.complaints == []
    finally:
        browser.close()


def _show(film: Path, context: BrowserContext) -> None:
    """Give the pages of a context a camera that sees the film, as it is when they open it."""

    def pictures() -> list[str]:
        frames = film.read_bytes().split(END_OF_JPEG)[:-1:FRAMES_EACH]
        return [base64.b64encode(frame + END_OF_JPEG).decode() for frame in frames]

    context.expose_function("pictures", pictures)
    context.add_init_script(FILMED)


def film_of(screens: Sequence[bytes], path: Path, turned_degrees: float = 4.0) -> None:
    """Write a film of another phone's screens: each turned a little, blurred a little, on a grey desk.

    screens: PNG pictures. Motion JPEG is one JPEG after the other.
    """
    with path.open("wb") as film:
        for number, screen in enumerate(screens):
            picture = seen(screen, turned_degrees if number % 2 else -turned_degrees)
            film.write(picture * FRAMES_EACH)


def seen(screen: bytes, degrees: float) -> bytes:
    """Return a JPEG of what a camera sees of another phone's screen, a PNG, that is turned a little."""
    code = Image.open(io.BytesIO(screen)).convert("L").resize((CODE_PX, CODE_PX), Image.Resampling.BICUBIC)
    code = code.point(lambda light: 30 + light * 190 // 255)
    desk = Image.new("L", FRAME, 110)
    mask = Image.new("L", code.size, 255)
    turned, mask = (one.rotate(degrees, Image.Resampling.BICUBIC, expand=True) for one in (code, mask))
    desk.paste(turned, ((FRAME[0] - turned.width) // 2, (FRAME[1] - turned.height) // 2), mask)
    out = io.BytesIO()
    desk.filter(ImageFilter.GaussianBlur(0.8)).convert("RGB").save(out, "JPEG", quality=80)
    return out.getvalue()
