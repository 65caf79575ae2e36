"""Looks at a photo's bytes: is it a picture, how large, and a thumbnail of it the right way up.

Orientation is EXIF tag 0x0112 (CIPA DC-008), values 1 to 8. Nothing is decoded before its size is known:
a 22 kB file can claim 180 megapixels.
"""

import io
import struct
import warnings
from dataclasses import dataclass

from PIL import Image

from shuntbook.kit.errors import BadPhoto

MAX_BYTES = 12 * 1024 * 1024
MAX_PIXELS = 50_000_000
FORMATS = {"JPEG": "image/jpeg", "PNG": "image/png", "WEBP": "image/webp"}
WIDTHS = (160, 320, 640, 1280)
ORIENTATION = 0x0112
TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
"""What turns a picture of each orientation upright; those from 5 on change width and height about."""


@dataclass(frozen=True)
class Picture:
    """What a photo is: media type, width and height in pixels as shown (orientation applied)."""

    type: str
    width: int
    height: int


def look_at(data: bytes) -> Picture:
    """Check that `data` is a whole picture of a kind and size that is taken.

    Errors: BadPhoto.
    """
    if len(data) > MAX_BYTES:
        raise BadPhoto(f"the photo has {len(data)} bytes; at most {MAX_BYTES} are taken. Shrink it first")
    with _opened(data) as image:
        kind = FORMATS[image.format or ""]
        try:
            image.load()
        except (OSError, ValueError, SyntaxError) as error:
            raise BadPhoto(f"the photo is damaged: {error}. Send it again") from error
        width, height = image.size[::-1] if _orientation(image) >= 5 else image.size
    return Picture(kind, width, height)


def thumbnail(data: bytes, width: int) -> bytes:
    """Return an upright JPEG of at most `width` pixels across, without EXIF or GPS.

    width: the next larger of 160, 320, 640, 1280. Errors: BadPhoto.
    """
    across = next((known for known in WIDTHS if known >= width), WIDTHS[-1])
    with _opened(data) as image:
        image.draft("RGB", (across, across))
        turn = TURNS.get(_orientation(image))
        upright = (image if turn is None else image.transpose(turn)).convert("RGB")
        upright.thumbnail((across, across * 4))
        out = io.BytesIO()
        # A fresh image carries the pixels only: EXIF, GPS and comments stay behind.
        bare = Image.new("RGB", upright.size)
        bare.paste(upright)
        bare.save(out, "JPEG", quality=80)
    return out.getvalue()


def _orientation(image: Image.Image) -> int:
    """Return the EXIF orientation, 1 where there is none or the EXIF block is damaged: the picture is good."""
    try:
        found = image.getexif().get(ORIENTATION, 1)
    except (ValueError, SyntaxError, KeyError, struct.error):
        return 1
    return found if isinstance(found, int) and found in TURNS else 1


def _opened(data: bytes) -> Image.Image:
    try:
        with warnings.catch_warnings():
            # Pillow only warns between its limit and twice it; ours is checked below, before decoding.
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            image = Image.open(io.BytesIO(data), formats=tuple(FORMATS))
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError) as error:
        raise BadPhoto(f"not a JPEG, PNG or WebP picture that can be read: {error}") from error
    if image.width * image.height > MAX_PIXELS:
        image.close()
        raise BadPhoto(f"{image.width} × {image.height} pixels; at most {MAX_PIXELS} are taken. Shrink it first")
    return image
