"""Draws the sample event's photos: invented damage on gravel, as phones would have sent it, EXIF and all.

EXIF (CIPA DC-008): tag 274 is the orientation; 6 = turn a quarter clockwise to see it upright, 3 = turn it
over. The GPS tags hold a place in the open sea. Same bytes on each run with the same Pillow.
"""

import io
import random
from collections.abc import Callable, Iterator

from PIL import Image, ImageDraw
from PIL.ExifTags import IFD

WIDTH, HEIGHT = 800, 600
ORIENTATION = 274
TURN_BEFORE_SAVING = {6: Image.Transpose.ROTATE_90, 3: Image.Transpose.ROTATE_180}
OPEN_SEA = {1: "N", 2: (45.0, 30.0, 0.0), 3: "W", 4: (38.0, 15.0, 0.0)}
Draw = ImageDraw.ImageDraw


def photos() -> Iterator[tuple[str, bytes]]:
    """Yield each picture's name and its JPEG bytes."""
    for name, draw in DRAWN.items():
        image = _gravel(name)
        draw(ImageDraw.Draw(image))
        yield name, _jpeg(image, ORIENTATIONS.get(name, 1), name in WITH_GPS)


def _jpeg(image: Image.Image, orientation: int, gps: bool) -> bytes:
    """Return the picture as a phone stores it: turned, with the tag that says so."""
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    if gps:
        exif.get_ifd(IFD.GPSInfo).update(OPEN_SEA)
    if orientation in TURN_BEFORE_SAVING:
        image = image.transpose(TURN_BEFORE_SAVING[orientation])
    file = io.BytesIO()
    image.save(file, "JPEG", quality=80, exif=exif)
    return file.getvalue()


def _gravel(seed: str) -> Image.Image:
    """Return a bed of stones, larger towards the bottom: the picture has a way up."""
    chance = random.Random(seed)
    image = Image.new("RGB", (WIDTH, HEIGHT), (142, 128, 110))
    draw = ImageDraw.Draw(image)
    for step in range(1600):
        y = step * HEIGHT // 1600
        x, size = chance.randrange(WIDTH), 3 + y // 40 + chance.randrange(6)
        grey = chance.randrange(92, 172)
        draw.ellipse((x - size, y - size * 0.7, x + size, y + size * 0.7), fill=(grey, grey - 9, grey - 22))
    return image


def _ring(draw: Draw, x: int, y: int, outer: int, inner: int, fill: str) -> None:
    draw.ellipse((x - outer, y - outer, x + outer, y + outer), outline=fill, width=outer - inner)


def _bent_rim(draw: Draw) -> None:
    draw.ellipse((170, 70, 630, 530), fill="#26241f")
    draw.ellipse((225, 125, 575, 475), fill="#b9bcc0")
    for dx, dy in ((0, -150), (143, -46), (88, 121), (-88, 121), (-143, -46)):
        draw.line((400, 300, 400 + dx, 300 + dy), fill="#6d7075", width=34)
    _ring(draw, 400, 300, 178, 158, "#d8dade")
    draw.polygon([(520, 165), (585, 215), (548, 262), (512, 240), (496, 196)], fill="#26241f")
    draw.line([(508, 158), (500, 200), (520, 240), (560, 268)], fill="#f2f2f2", width=7)
    draw.ellipse((365, 265, 435, 335), fill="#44474b")


def _cracked_hose(draw: Draw) -> None:
    draw.rectangle((0, 0, 160, 190), fill="#7d3026")
    draw.arc((60, -140, 700, 470), 10, 130, fill="#1c1c1c", width=44)
    draw.arc((70, -130, 690, 460), 12, 128, fill="#3d3d3d", width=10)
    draw.rectangle((640, 150, 712, 260), fill="#a58c3a")
    draw.rectangle((165, 380, 250, 440), fill="#a58c3a")
    for x, y in ((470, 424), (496, 414), (521, 400)):
        draw.line((x, y - 16, x + 9, y + 18), fill="#c9c2b4", width=5)
    draw.ellipse((478, 452, 512, 500), fill="#b98e2c")


def _bent_guard(draw: Draw) -> None:
    draw.polygon([(60, 150), (740, 130), (700, 470), (430, 505), (350, 420), (110, 480)], fill="#9ea2a5")
    draw.polygon([(300, 230), (470, 205), (520, 330), (410, 400), (290, 340)], fill="#6c7073")
    for offset in range(0, 150, 30):
        draw.line((270 + offset, 190, 330 + offset, 410), fill="#dfe2e3", width=4)
    for x, y in ((95, 175), (700, 160), (665, 440), (140, 450)):
        draw.ellipse((x - 14, y - 14, x + 14, y + 14), fill="#2b2b2b")


def _torn_bumper(draw: Draw) -> None:
    draw.polygon([(30, 190), (770, 170), (770, 330), (560, 360), (540, 300), (480, 410), (30, 380)], fill="#2f6f4f")
    draw.polygon([(560, 360), (770, 330), (730, 520), (610, 545)], fill="#28603f")
    draw.line([(540, 300), (520, 330), (556, 352), (500, 385), (480, 410)], fill="#e9e6dd", width=6)
    draw.rectangle((110, 240, 360, 320), fill="#1d1d1d")
    for y in range(255, 320, 18):
        draw.line((110, y, 360, y), fill="#4c4c4c", width=4)


def _dented_sill(draw: Draw) -> None:
    draw.rectangle((0, 40, 800, 330), fill="#d9a62e")
    draw.rectangle((0, 330, 800, 450), fill="#b88a20")
    draw.line((410, 40, 410, 330), fill="#5b4612", width=6)
    draw.polygon([(300, 345), (520, 335), (560, 450), (430, 478), (280, 450)], fill="#77590f")
    draw.arc((280, 300, 560, 470), 20, 170, fill="#f3d88d", width=8)
    draw.line([(350, 240), (420, 262), (505, 236)], fill="#80641a", width=9)
    draw.rectangle((470, 90, 540, 112), fill="#2a2a2a")


def _marked_cage_tube(draw: Draw) -> None:
    draw.rectangle((0, 0, 800, 600), fill="#3a3d42")
    draw.line((40, 560, 760, 60), fill="#1f4f8b", width=96)
    draw.line((24, 536, 744, 36), fill="#3f78bd", width=14)
    draw.line((60, 60, 330, 560), fill="#1b457a", width=84)
    draw.polygon([(455, 250), (520, 205), (546, 236), (474, 288)], fill="#b9bcbf")
    for offset in range(0, 60, 14):
        draw.line((462 + offset, 254 - offset // 2, 486 + offset, 280 - offset // 2), fill="#8c8f93", width=3)


DRAWN: dict[str, Callable[[Draw], None]] = {
    "bent-rim": _bent_rim,
    "cracked-hose": _cracked_hose,
    "bent-guard": _bent_guard,
    "torn-bumper": _torn_bumper,
    "dented-sill": _dented_sill,
    "marked-cage-tube": _marked_cage_tube,
}
"""What is drawn, by name."""

ORIENTATIONS = {"bent-rim": 6, "dented-sill": 3}
WITH_GPS = {"cracked-hose"}
