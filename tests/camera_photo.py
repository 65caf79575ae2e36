"""A photo as a phone's camera takes it."""

from pathlib import Path

from PIL import Image


def take_photo(path: Path) -> Path:
    """Write 12 megapixels of noise, turned by EXIF, with GPS in it; return where."""
    image = Image.effect_noise((4000, 3000), 60).convert("RGB")
    exif = Image.Exif()
    exif[0x0112] = 6
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8825)[2] = (45.0, 30.0, 0.0)
    image.save(path, "JPEG", quality=70, exif=exif)
    return path
