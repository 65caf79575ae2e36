"""Two phones with WebKit and no server: a ring on a photo, an own queue, a file and codes that pass between them."""

import base64
import io
import re
import zipfile
from pathlib import Path

from cameras import seen
from PIL import Image
from server import Server

from .conftest import Pockets
from .finding import BOX
from .phone import WebKitPhone

WORKED_OUT = "Calculated on this phone from what it holds"
FILM = """
const [pictures] = arguments;
const canvas = Object.assign(document.createElement('canvas'), { width: 1280, height: 720 });
const context = canvas.getContext('2d');
const show = async () => {
  // By chance: in turn, a slow look could fall on the same one for ever.
  const picture = pictures[Math.floor(Math.random() * pictures.length)];
  const bytes = Uint8Array.from(atob(picture), (one) => one.charCodeAt(0));
  context.drawImage(await createImageBitmap(new Blob([bytes], { type: 'image/jpeg' })), 0, 0);
};
setInterval(show, 300);
MediaDevices.prototype.getUserMedia = async () => canvas.captureStream(10);
return show();
"""
"""(JPEGs in base64) → from now on the page's camera sees them, in any order.

At ten pictures a second: left to see for itself when it changes, a canvas soon gives none. WebKit's own false camera
shows a clock alone, and does not always survive that it is switched off (WebKitGTK 2.50.6).
"""


def entries_of(phone: WebKitPhone) -> list[dict]:
    """Return what a phone holds of its car, in an order that two phones share."""
    return sorted((record["entry"] for record in phone.stored("entries")), key=str)


def of_car(phone: WebKitPhone, car: str) -> list[dict]:
    return [one for one in entries_of(phone) if one["car"] == car]


def test_a_ring_on_a_photo_is_where_the_finger_was(team: Server, pocket: Pockets, picture: Path) -> None:
    toma = pocket("p-toma", "52")
    toma.logs("Front left", "Wheel rim")
    toma.upload("input[type=file]", picture)
    toma.css(".kept img")
    toma.tap("Mark the place")
    # The photo's own pixels to those of the view: SVG's matrix, which shares no code with what is checked.
    matrix = "const one = arguments[0].getScreenCTM(); return [one.e, one.f, one.a];"
    left, top, scale = toma.run(matrix, toma.css(".ring-photo"))
    toma.tap_at(left + 300 * scale, top + 1200 * scale)
    toma.tap("Larger", exact=True)
    toma.tap("Keep the marked photo")
    toma.until(lambda: len(toma.run("return [...document.querySelectorAll('.kept img')]")) == 2, "the marked photo")
    toma.until(lambda: len(team.entries("52", "report.amended")) == 2, "both photos named on the server")
    names = team.entries("52", "report.amended")[1]["data"]["photos"]
    toma.until(lambda: not [one for one in toma.stored("photos") if one["sending"] == "waiting"], "photos sent")
    original, marked = [opened(team.call("GET", f"/photos/{name}", team.manager)) for name in names]
    assert marked.size == original.size == (1200, 1600)
    # 0.3 of the shorter side across, larger by a quarter.
    far = 0.3 * 1.25 / 2 * 1200
    for x in (300 - far, 300 + far):
        assert marked.getpixel((round(x), 1200)) > 200, "white on the line"


def opened(data: bytes) -> Image.Image:
    return Image.open(io.BytesIO(data)).convert("L")


def test_a_queue_worked_out_without_a_server_is_the_servers(team: Server, pocket: Pockets) -> None:
    bodo = pocket("p-bodo", "53")
    bodo.show("queue")
    bodo.sees("Server heard")
    team.stop()
    bodo.logs("Front left", "Wheel rim")
    bodo.logs("Front right", "Wheel rim")
    bodo.show("queue")
    bodo.sees(WORKED_OUT)
    bodo.sees("Front right corner: Brake hose")
    row = r"Wheel rim\s*bent[^\n]*\s*[0-9]+ min\s*swap"
    bodo.until(lambda: re.search(row, bodo.run("return document.body.innerText")), row)
    shown = "return document.querySelector('[data-hash]').dataset.hash"
    own = bodo.run(shown)
    team.start()
    bodo.until(lambda: len(team.entries("53")) == 2, "both reports on the server")
    bodo.misses(WORKED_OUT)
    assert own == team.queue("53")["hash"]
    bodo.until(lambda: bodo.run(shown) == own, "the server's queue on the phone")
    assert team.queue("53")["release"] == "hold"


def test_a_file_passes_to_another_phone_with_its_photo(team: Server, pocket: Pockets, picture: Path) -> None:
    toma, bodo = pocket("p-toma", "54"), pocket("p-bodo", "54")
    team.stop()
    toma.logs("Front left", "Wheel rim")
    toma.upload("input[type=file]", picture)
    toma.css(".kept img")
    toma.show("handover")
    toma.tap("Make the file")
    path = toma.saved("Save it on this phone")
    with zipfile.ZipFile(path) as packed:
        assert packed.testzip() is None
    damaged = path.with_name("damaged.zip")
    data = bytearray(path.read_bytes())
    data[len(data) // 2] ^= 1
    damaged.write_bytes(data)
    bodo.show("handover")
    bodo.upload("input[type=file]", damaged)
    bodo.sees("This file is damaged")
    assert of_car(bodo, "54") == []
    bodo.upload("input[type=file]", path)
    bodo.sees("Taken:")
    assert of_car(bodo, "54") == of_car(toma, "54")
    [named] = [one["data"]["photos"] for one in of_car(bodo, "54") if one["kind"] == "report.amended"]
    assert set(named) <= {one["photo"] for one in bodo.stored("photos")}
    bodo.upload("input[type=file]", path)
    bodo.sees("Taken: 0 entries new")


def test_codes_on_one_phones_screen_are_read_by_the_others_camera(team: Server, pocket: Pockets) -> None:
    toma, bodo = pocket("p-toma", "55"), pocket("p-bodo", "55")
    team.stop()
    for _ in range(4):
        toma.logs("Front left", "Wheel rim")
    toma.show("codes")
    pictures = codes_on(toma)
    assert len(pictures) > 1, "four reports are more than one code"
    bodo.show("handover")
    # As a hand holds a phone, never still: no decoder reads every code at every angle.
    film = [base64.b64encode(seen(one, degrees)).decode() for one in pictures for degrees in (-4, -1, 2, 5)]
    bodo.run(FILM, film)
    bodo.tap("Scan codes")
    bodo.sees("Taken: 4 entries new")
    bodo.until(lambda: bodo.run("return document.querySelector('video') === null"), "the camera to be closed")
    assert of_car(bodo, "55") == of_car(toma, "55")


def codes_on(phone: WebKitPhone) -> list[bytes]:
    """Return pictures of the codes as they stand on the screen, each once."""
    phone.sees("Code 1 of")
    phone.tap("Stop at this code")
    count = int(phone.run("return document.querySelector('figcaption').innerText").split()[-1])
    pictures: list[bytes] = []
    while len(pictures) < count:
        phone.sees(f"Code {len(pictures) + 1} of {count}")
        left, top, width, height = phone.run(BOX, phone.css("svg.code"))
        code = phone.picture().crop((left, top, left + width, top + height))
        # What the page holds comes to the screen a moment later: a code that stands there whole has a white edge.
        if len(set(edge_of(code))) == 1 and png(code) not in pictures:
            pictures.append(png(code))
            phone.tap("Next code")
    return pictures


def edge_of(image: Image.Image) -> list[object]:
    """Return the colours two pixels inside the four sides, where a page's fractions of pixels do not show."""
    right, bottom = image.width - 3, image.height - 3
    sides = [(x, y) for x in range(2, right) for y in (2, bottom)] + [
        (x, y) for y in range(2, bottom) for x in (2, right)
    ]
    return [image.getpixel(one) for one in sides]


def png(image: Image.Image) -> bytes:
    out = io.BytesIO()
    image.save(out, "PNG")
    return out.getvalue()
