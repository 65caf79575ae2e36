"""UUIDv7 identifiers, as RFC 9562 section 5.7 lays them out.

Sample value (RFC 9562, appendix A.6): 017F22E2-79B0-7CC3-98C4-DC0C0C07398F, made at 1645557742000 ms.
"""

import re

UUID7 = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}", re.I)


def is_uuid7(text: str) -> bool:
    """Return whether `text` is a UUID of version 7, variant 10, in the hyphenated form."""
    return UUID7.fullmatch(text) is not None


def uuid7(unix_ms: int, random_bits: int) -> str:
    """Build a UUIDv7 from a Unix time in milliseconds (48 bits) and 74 random bits.

    Pure: the caller brings the clock and the chance. Bits beyond the fields are cut off.
    """
    rand_a = (random_bits >> 62) & 0xFFF
    rand_b = random_bits & ((1 << 62) - 1)
    value = (unix_ms & ((1 << 48) - 1)) << 80 | 0x7 << 76 | rand_a << 64 | 0b10 << 62 | rand_b
    digits = f"{value:032x}"
    return "-".join((digits[:8], digits[8:12], digits[12:16], digits[16:20], digits[20:]))


def unix_ms_of(uuid: str) -> int:
    """Return the Unix time in milliseconds that a UUIDv7 carries in its first 48 bits."""
    return int(uuid.replace("-", "")[:12], 16)
