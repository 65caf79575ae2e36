"""Makes README.md's moving picture from the real app: a hit logged without a signal, then in the mechanic's queue.

python tools/moving_picture.py
"""

import base64
import io
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, Locator, Page
from screenshots import LONG_MS, TARGET, on_the_sample, person

WIDTH, HEIGHT = 820, 936
COLOURS = 128
STAGE = """<!doctype html><style>
  body {{ margin: 0; width: {width}px; height: {height}px; background: #e9ecef; }}
  body {{ font: 600 20px sans-serif; color: #16202b; }}
  h1 {{ font: inherit; margin: 0; height: 52px; line-height: 52px; text-align: center; }}
  div {{ display: flex; gap: 20px; padding: 0 10px; }}
  figure {{ margin: 0; width: 390px; }}
  figcaption {{ font-size: 15px; text-align: center; height: 24px; }}
  img {{ width: 390px; height: 844px; border-radius: 12px; display: block; }}
</style><h1>{caption}</h1><div>{phones}</div>"""
FINGER = """(box) => {
  const dot = document.createElement('i');
  dot.id = 'finger';
  const place = `left:${box.x + box.width / 2 - 26}px;top:${box.y + box.height / 2 - 26}px`;
  dot.style.cssText = `position:fixed;z-index:9999;width:52px;height:52px;border-radius:50%;${place};` +
    'background:rgb(20 90 220 / 45%);border:3px solid rgb(20 90 220);pointer-events:none';
  (document.querySelector('dialog[open]') ?? document.body).append(dot);
}"""


class Film:
    """Both phones side by side under a caption, frame by frame."""

    def __init__(self, stage: Page, codriver: Page, mechanic: Page) -> None:
        self.stage, self.codriver, self.mechanic = stage, codriver, mechanic
        self.frames: list[Image.Image] = []
        self.lengths_ms: list[int] = []

    def show(self, caption: str, seconds: float) -> None:
        """Add what both phones show now."""
        both = (("co-driver", self.codriver), ("mechanic, in the service park", self.mechanic))
        phones = "".join(
            f"<figure><figcaption>{who}</figcaption><img src='data:image/png;base64,{_shot(page)}'></figure>"
            for who, page in both
        )
        self.stage.set_content(STAGE.format(width=WIDTH, height=HEIGHT, caption=caption, phones=phones))
        frame = Image.open(io.BytesIO(self.stage.screenshot()))
        self.frames.append(frame.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE))
        self.lengths_ms.append(round(seconds * 1000))

    def tap(self, target: Locator, caption: str, seconds: float) -> None:
        """Add a frame with a finger on the target, and tap it."""
        page = target.page
        page.evaluate(FINGER, target.bounding_box())
        self.show(caption, seconds)
        page.evaluate("document.getElementById('finger').remove()")
        target.click()

    def save(self, path: Path) -> None:
        """Write it as a picture that moves, again and again."""
        first, *others = self.frames
        first.save(path, save_all=True, append_images=others, duration=self.lengths_ms, loop=0, optimize=True)


def main() -> None:
    """Serve the sample event, play the scene and write the picture."""
    with on_the_sample() as (browser, data, url):
        film = Film(_stage(browser), person(browser, data, url, "p-toma"), person(browser, data, url, "p-bodo"))
        play(film)
    film.save(TARGET / "offline-hit.gif")


def play(film: Film) -> None:
    """Log a hit where there is no signal; drive into it; read it in the queue."""
    codriver, mechanic = film.codriver, film.mechanic
    mechanic.evaluate("location.hash = '#/queue'")
    mechanic.get_by_role("button", name="Seen", exact=True).click()
    mechanic.get_by_text("new since you looked").wait_for(state="detached")
    _settle(mechanic)
    codriver.context.set_offline(True)
    # Opened there: the browser's own emulation leaves a stream open that a forest would have cut.
    codriver.evaluate("location.hash = '#/log'")
    codriver.reload()
    codriver.get_by_text("no signal").first.wait_for(timeout=LONG_MS)
    _settle(codriver)
    film.show("The stage finish. No signal.", 2.5)
    film.tap(codriver.get_by_role("button", name="Front left").first, "1: where was it hit?", 1.8)
    rim = codriver.get_by_label("Wheel rim", exact=True)
    rim.wait_for()
    _settle(codriver)
    film.tap(rim, "2: what?", 1.8)
    _settle(codriver)
    film.tap(codriver.locator(".save-bar button", has_text="Save").first, "3: Save. Gloves on, belts on.", 1.8)
    codriver.get_by_role("button", name="Log another").wait_for()
    _settle(codriver)
    film.show("Kept on the phone, signed, waiting for a signal.", 3)
    codriver.context.set_offline(False)
    mechanic.get_by_text("new since you looked").wait_for(timeout=LONG_MS)
    _settle(codriver)
    _settle(mechanic)
    film.show("On the road section: one bar of signal is enough.", 3)
    place = mechanic.locator(".queue").get_by_text("Front left corner").first
    place.evaluate("one => { one.scrollIntoView({ block: 'center' }); }")
    _settle(mechanic)
    film.show("The crew reads it before the car rolls in.", 5)


def _stage(browser: Browser) -> Page:
    return browser.new_context(viewport={"width": WIDTH, "height": HEIGHT}).new_page()


def _settle(page: Page) -> None:
    page.wait_for_timeout(1200)


def _shot(page: Page) -> str:
    return base64.b64encode(page.screenshot(animations="disabled")).decode()


if __name__ == "__main__":
    main()
