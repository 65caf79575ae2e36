"""What may be attached to a report or job and is kept by its hash: a photo, or a voice note."""

from dataclasses import dataclass

from shuntbook.report.photo import look_at
from shuntbook.report.voice import media_type


@dataclass(frozen=True)
class Attached:
    """What a file by its hash is: media type, and of a photo width and height as shown; a voice note has 0 by 0."""

    type: str
    width: int = 0
    height: int = 0


def identify(data: bytes) -> Attached:
    """Return what the bytes are. Errors: BadPhoto where they are neither a whole photo nor a voice note."""
    sound = media_type(data)
    if sound is not None:
        return Attached(sound)
    picture = look_at(data)
    return Attached(picture.type, picture.width, picture.height)
