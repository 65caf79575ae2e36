"""Photos: orientation by CIPA DC-008 (EXIF 2.32, tag 0x0112), bombs, damage, and what a thumbnail leaves behind."""

import io
import struct
import tracemalloc
import zlib

import pytest
from PIL import Image

from shuntbook.kit.errors import BadPhoto
from shuntbook.report.photo import MAX_BYTES, look_at, thumbnail

RED, GREEN, BLUE, WHITE = (220, 20, 20), (20, 200, 20), (20, 20, 220), (240, 240, 240)
# CIPA DC-008, tag Orientation: where row 0 and column 0 of the stored picture lie on the shown one.
SIDES = {
    1: ("top", "left"),
    2: ("top", "right"),
    3: ("bottom", "right"),
    4: ("bottom", "left"),
    5: ("left", "top"),
    6: ("right", "top"),
    7: ("right", "bottom"),
    8: ("left", "bottom"),
}
WIDTH, HEIGHT = 240, 160


def upright() -> Image.Image:
    """A picture whose four quarters differ: red green / blue white."""
    image = Image.new("RGB", (WIDTH, HEIGHT))
    corners = {(0, 0): RED, (1, 0): GREEN, (0, 1): BLUE, (1, 1): WHITE}
    for (x, y), colour in corners.items():
        image.paste(colour, (x * WIDTH // 2, y * HEIGHT // 2, (x + 1) * WIDTH // 2, (y + 1) * HEIGHT // 2))
    return image


def stored(orientation: int) -> Image.Image:
    """The upright picture as a camera stores it: pixel by pixel from the standard's table, no library's turns."""
    shown = upright()
    row_side, column_side = SIDES[orientation]
    turned = row_side in ("left", "right")
    columns, rows = (HEIGHT, WIDTH) if turned else (WIDTH, HEIGHT)
    source, image = shown.load(), Image.new("RGB", (columns, rows))
    target = image.load()
    assert source and target
    for row in range(rows):
        for column in range(columns):
            along = {row_side: row, column_side: column}
            x = along["left"] if "left" in along else WIDTH - 1 - along["right"]
            y = along["top"] if "top" in along else HEIGHT - 1 - along["bottom"]
            target[column, row] = source[x, y]
    return image


def saved(image: Image.Image, kind: str = "JPEG", orientation: int | None = None, **more: object) -> bytes:
    exif = image.getexif()
    if orientation is not None:
        exif[0x0112] = orientation
        exif[0x010F] = "CAMERA-MAKER"
        exif.get_ifd(0x8825)[1] = "N"
        exif.get_ifd(0x8825)[2] = (48.0, 12.0, 30.0)
    out = io.BytesIO()
    image.save(out, kind, exif=exif, **more)
    return out.getvalue()


def quarters(data: bytes) -> list[tuple[int, ...]]:
    """The colours in the middle of the four quarters, as far as JPEG keeps them."""
    image = Image.open(io.BytesIO(data)).convert("RGB")
    points = [(x * image.width // 4, y * image.height // 4) for y in (1, 3) for x in (1, 3)]
    return [tuple(min(range(0, 241, 20), key=lambda v: abs(v - c)) for c in image.getpixel(p)) for p in points]


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("orientation", SIDES)
def test_a_thumbnail_stands_upright_whatever_way_the_camera_was_held(orientation, kind):
    data = saved(stored(orientation), kind, orientation, quality=95)
    shown = thumbnail(data, 160)
    assert quarters(shown) == [RED, GREEN, BLUE, WHITE]
    assert Image.open(io.BytesIO(shown)).size == (160, 107)


@pytest.mark.parametrize("orientation", SIDES)
def test_width_and_height_are_those_that_are_shown(orientation):
    picture = look_at(saved(stored(orientation), "JPEG", orientation))
    assert (picture.type, picture.width, picture.height) == ("image/jpeg", WIDTH, HEIGHT)


@pytest.mark.parametrize("orientation", [0, 9, 65535])
def test_an_orientation_that_the_standard_lacks_is_taken_as_upright(orientation):
    assert quarters(thumbnail(saved(upright(), "JPEG", orientation, quality=95), 160)) == [RED, GREEN, BLUE, WHITE]


def test_a_thumbnail_carries_neither_place_nor_camera():
    data = saved(upright(), "JPEG", 6)
    assert b"CAMERA-MAKER" in data
    small = thumbnail(data, 160)
    assert b"Exif" not in small
    assert b"CAMERA-MAKER" not in small
    assert len(Image.open(io.BytesIO(small)).getexif()) == 0


def test_a_damaged_exif_block_does_not_cost_the_photo():
    good = saved(upright(), "WEBP", 6)
    damaged = good.replace(b"MM\x00*", b"MM\xff*").replace(b"II*\x00", b"IX*\x00")
    assert damaged != good
    assert (look_at(damaged).width, look_at(damaged).height) == (WIDTH, HEIGHT)
    assert quarters(thumbnail(damaged, 160)) == [RED, GREEN, BLUE, WHITE]


@pytest.mark.parametrize(("asked", "given"), [(1, 160), (160, 160), (161, 320), (640, 480), (5000, 480)])
def test_a_thumbnail_has_the_next_larger_width_but_is_never_blown_up(asked, given):
    wide = Image.new("RGB", (480, 100), RED)
    assert Image.open(io.BytesIO(thumbnail(saved(wide), asked))).width == given


def png_claiming(width: int, height: int) -> bytes:
    """A PNG of one colour with a header that claims many pixels; the data deflate to a few kilobytes."""
    header = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    data = zlib.compress(bytes((width + 7) // 8 + 1) * height, 9)
    parts = [(b"IHDR", header), (b"IDAT", data), (b"IEND", b"")]
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body)) for name, body in parts
    )


# Pillow refuses from 2 × 89 478 485 pixels on and only warns below: both sizes must be refused here.
@pytest.mark.parametrize(("width", "height"), [(18_000, 10_000), (10_000, 10_000), (7_072, 7_072)])
def test_a_small_file_of_many_megapixels_is_refused_before_it_is_decoded(width, height):
    bomb = png_claiming(width, height)
    assert len(bomb) < 60_000
    tracemalloc.start()
    with pytest.raises(BadPhoto, match=r"pixels|picture"):
        look_at(bomb)
    with pytest.raises(BadPhoto):
        thumbnail(bomb, 160)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 5_000_000


def test_a_photo_of_just_under_the_limit_is_taken():
    assert look_at(png_claiming(7_000, 7_000)).width == 7_000


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("share", [0.001, 0.02, 0.5, 0.95])
def test_a_photo_cut_short_is_refused(kind, share):
    data = saved(Image.effect_noise((200, 200), 80).convert("RGB"), kind)
    with pytest.raises(BadPhoto):
        look_at(data[: int(len(data) * share)])


@pytest.mark.parametrize("data", [b"", b"GIF89a" + bytes(40), b"<svg/>", b"%PDF-1.7", b"BM" + bytes(60)])
def test_what_is_no_jpeg_png_or_webp_is_refused(data):
    with pytest.raises(BadPhoto, match="not a JPEG, PNG or WebP"):
        look_at(data)


def test_a_file_over_the_limit_is_refused_unopened():
    with pytest.raises(BadPhoto, match="at most"):
        look_at(bytes(MAX_BYTES + 1))
