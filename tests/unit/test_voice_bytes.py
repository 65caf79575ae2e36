"""Voice notes are told by their container's first bytes, and a picture is never taken for one."""

import pytest

from shuntbook.kit.errors import BadPhoto
from shuntbook.report.attached import Attached, identify
from shuntbook.report.voice import MAX_BYTES

# The first bytes as the standards have them: EBML header (RFC 8794), Ogg page (RFC 3533), file type box with its brand
# (ISO/IEC 14496-12).
WEBM = bytes.fromhex("1a45dfa39f4286810142f7810142f2810442f381084282847765626d") + bytes(64)
OGG = b"OggS" + bytes(64)
MP4 = bytes.fromhex("0000001c") + b"ftypiso5" + bytes(64)
HEIC = bytes.fromhex("00000018") + b"ftypheic" + bytes(64)


@pytest.mark.parametrize(("data", "kind"), [(WEBM, "audio/webm"), (OGG, "audio/ogg"), (MP4, "audio/mp4")])
def test_what_phones_record_into_is_known_by_its_first_bytes(data, kind):
    assert identify(data) == Attached(kind, 0, 0)


@pytest.mark.parametrize("data", [HEIC, b"RIFF....WAVEfmt ", b"", b"ID3"])
def test_a_still_picture_in_the_same_container_or_another_sound_is_none(data):
    with pytest.raises(BadPhoto):
        identify(data)


def test_one_that_is_too_large_is_refused_with_what_to_do():
    with pytest.raises(BadPhoto, match="two notes"):
        identify(OGG + bytes(MAX_BYTES))
