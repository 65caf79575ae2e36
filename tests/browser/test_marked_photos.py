"""A ring drawn on a photo with no server in reach: where the finger was, in a new photo after its original."""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from phones import PocketPhone, wait_until
from PIL import Image
from playwright.sync_api import Page
from server import Server
from test_offline import log_a_bent_wheel, photo_on

# What the page shows the photo in, in CSS pixels: SVG's own matrix, which shares no code with what is checked.
CORNER = """() => {
  const matrix = document.querySelector(".ring-photo").getScreenCTM();
  return [matrix.e, matrix.f, matrix.a];
}"""


def tap_at(page: Page, x: float, y: float) -> None:
    """Tap a pixel of the photo as it is seen."""
    left, top, scale = page.evaluate(CORNER)
    page.mouse.click(left + x * scale, top + y * scale)


@pytest.mark.longer
def test_a_ring_is_drawn_offline_and_goes_out_as_a_new_photo(
    empty_server: Server, phone: Callable[[str], PocketPhone], picture: Path
) -> None:
    toma = phone("toma")
    page = toma.join(empty_server, "p-toma")
    empty_server.stop()
    log_a_bent_wheel(page, picture)
    page.get_by_role("button", name="Mark the place").click()
    page.get_by_role("button", name="Keep the marked photo").click(force=True)
    page.get_by_text("has not been placed yet").wait_for()
    tap_at(page, 300, 1200)
    page.get_by_role("button", name="Larger", exact=True).click()
    page.get_by_role("button", name="Keep the marked photo").click()
    page.locator(".kept img").nth(1).wait_for()
    page.get_by_role("dialog").wait_for(state="detached")

    empty_server.start()
    wait_until(page, lambda: len(empty_server.entries(kind="report.amended")) == 2)
    first, second = [one["data"]["photos"] for one in empty_server.entries(kind="report.amended")]
    assert len(second) == 2
    assert second[0] == first[0], "the original stays, and first"
    token = empty_server.token("p-bodo")
    wait_until(page, lambda: all(photo_on(empty_server, one, token) for one in second))
    original, marked = [photo_on(empty_server, one, token) or b"" for one in second]
    assert b"Exif" not in marked[:64]
    holds_a_ring(marked, original, 300, 1200, 0.3 * 1.25 / 2)


def holds_a_ring(marked: bytes, original: bytes, x: int, y: int, radius: float) -> None:
    """White with black on both sides, left, right and below; `radius` in parts of the shorter side."""
    with Image.open(BytesIO(marked)) as picture, Image.open(BytesIO(original)) as before:
        assert picture.size == before.size == (1200, 1600), "upright, as it was turned by EXIF"
        grey = picture.convert("L")
    far = radius * 1200
    for dx, dy in ((-far, 0), (far, 0), (0, far)):
        assert grey.getpixel((round(x + dx), round(y + dy))) > 200, "white on the line"
    # 0.014 / 2 + 0.006 / 2 of the shorter side from its middle: the black edge's own middle.
    for off in (-12, 12):
        assert grey.getpixel((round(x + far + off), y)) < 60, "black beside it"
