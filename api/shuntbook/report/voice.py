"""Looks at a voice note's bytes: which of the containers that phones record into it is.

By the first bytes: WebM and other Matroska begin with the EBML header 1A 45 DF A3 (RFC 8794, 11.2.1), Ogg with "OggS"
(RFC 3533, 6), MP4 holds "ftyp" in its first box from byte 4 and then its brand (ISO/IEC 14496-12, 4.3), by which it is
told from a still picture in the same container. Nothing is decoded here: what a browser makes of it is the browser's.
"""

from shuntbook.kit.errors import BadPhoto

MAX_BYTES = 2 * 1024 * 1024
"""A minute at 24 kbit/s is 180 kB; a browser that takes no wish records at up to 128 kbit/s, 1 MB."""

BRANDS = frozenset({b"isom", b"iso2", b"iso4", b"iso5", b"iso6", b"mp41", b"mp42", b"M4A ", b"dash"})


def media_type(data: bytes) -> str | None:
    """Return the media type of a voice note, None where the bytes are of no container that is taken.

    Errors: BadPhoto where it is too large.
    """
    kind = _container(data)
    if kind is not None and len(data) > MAX_BYTES:
        raise BadPhoto(f"the voice note has {len(data)} bytes; at most {MAX_BYTES} are taken. Say it in two notes")
    return kind


def _container(data: bytes) -> str | None:
    if data.startswith(b"\x1a\x45\xdf\xa3"):
        return "audio/webm"
    if data.startswith(b"OggS"):
        return "audio/ogg"
    return "audio/mp4" if data[4:8] == b"ftyp" and data[8:12] in BRANDS else None
