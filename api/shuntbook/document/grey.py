"""Takes the colour out of a picture, for sheets that are printed in black."""

import io

from PIL import Image


def grey(picture: bytes) -> bytes:
    """Return a JPEG of the same size in shades of grey (luma of ITU-R BT.601, Pillow's mode L)."""
    out = io.BytesIO()
    with Image.open(io.BytesIO(picture)) as image:
        image.convert("L").save(out, "JPEG", quality=80)
    return out.getvalue()
