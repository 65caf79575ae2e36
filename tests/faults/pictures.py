"""Photos for tests: whole ones, ones with a hole, and small files that claim to be huge."""

import io
import struct
import zlib
from functools import cache

from PIL import Image


@cache
def jpeg(number: int = 0, size: tuple[int, int] = (640, 480)) -> bytes:
    """Return a photo of some 100 kB, another one for each number."""
    image = Image.effect_noise(size, 40 + number % 50).convert("RGB")
    image.putpixel((0, 0), (number % 256, number // 256 % 256, 7))
    out = io.BytesIO()
    image.save(out, "JPEG", quality=85)
    return out.getvalue()


def with_hole(data: bytes) -> bytes:
    """Return the photo with 4 KiB of zeros in its middle; decoders let that pass."""
    middle = len(data) // 2
    return data[:middle] + bytes(4096) + data[middle + 4096 :]


@cache
def bomb(width: int, height: int) -> bytes:
    """Return a PNG of one colour and one bit a pixel (PNG specification, third edition): small, huge once decoded."""
    row = bytes(1 + (width + 7) // 8)
    packer = zlib.compressobj(9)
    packed = b"".join(packer.compress(row) for _ in range(height)) + packer.flush()
    header = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", header) + _chunk(b"IDAT", packed) + _chunk(b"IEND", b"")


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
