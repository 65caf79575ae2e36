"""One byte string per JSON value: the canonical form of RFC 8785 and its SHA-256.

The `rfc8785` package does the work for any value. `plain` gives the same bytes at C speed where every number is
whole, or has at most four decimals and is below 10^15: there msgspec's shortest form is the standard's too (a test
holds the two against each other). `canonical_text` looks at a JSON text whether that is so, and takes the quick way
where it is: for nearly every entry.
"""

import hashlib
import re
from typing import Any

import msgspec
import rfc8785


def canonical(value: Any) -> bytes:
    """Return `value` in RFC 8785 form. Errors: ValueError for NaN, infinity, integers past 2^53."""
    try:
        return rfc8785.dumps(value)
    except (rfc8785.CanonicalizationError, RecursionError) as error:
        raise ValueError(str(error)) from error


def json_text(value: Any) -> str:
    """Return `value` as JSON the way the API and the commands write it: a Struct's fields in their order."""
    return msgspec.json.encode(value).decode()


def plain(value: Any) -> bytes:
    """Return the RFC 8785 form of a value with ASCII keys and short numbers (see the module's text)."""
    return msgspec.json.encode(value, order="sorted")


def sha256(data: bytes) -> str:
    """Return the SHA-256 of `data` as 64 lower-case hex digits (FIPS 180-4)."""
    return hashlib.sha256(data).hexdigest()


def canonical_text(raw: bytes, without: str | None = None) -> bytes:
    """Return the RFC 8785 form of a JSON text, `without` one name of its outermost object.

    Errors: ValueError for what is no JSON (msgspec.DecodeError is one) or has no canonical form.
    """
    quick = None if _is_unusual(raw) else _QUICK
    try:
        value = (quick or _ANY).decode(raw)
    except _OddNumberError:
        quick, value = None, _ANY.decode(raw)
    if without is not None and isinstance(value, dict):
        value.pop(without, None)
    try:
        return canonical(value) if quick is None else plain(value)
    except RecursionError as error:
        raise ValueError("nested too deep") from error


class _OddNumberError(Exception):
    """A number whose shortest form may differ between languages."""


def _is_unusual(raw: bytes) -> bool:
    """Return whether a text has letters beyond 16 bits, which UTF-16 sorts otherwise, letters written as numbers, or
    16 digits in a row: a whole number that may pass 2^53.
    """
    shape = raw.translate(_SHAPES)  # 30 times as quick as a regular expression: each entry that comes in is looked at
    return b"0" * 16 in shape or b"\xff" in shape or b"\\u" in raw


_SHAPES = bytes(0x30 if 0x30 <= byte <= 0x39 else 0xFF if byte >= 0xF0 else byte for byte in range(256))
"""Every digit as 0, and every byte that begins a letter beyond 16 bits as one."""
_SHORT = re.compile(r"-?[0-9]{1,15}(\.[0-9]{1,4})?")


def _short(literal: str) -> float | int:
    if _SHORT.fullmatch(literal) is None:
        raise _OddNumberError
    number = float(literal)
    return int(number) if number.is_integer() else number  # RFC 8785 writes 3.0 as 3


_ANY = msgspec.json.Decoder()
_QUICK = msgspec.json.Decoder(float_hook=_short)


def digest_of(raw: bytes) -> str:
    """Return the SHA-256 of a JSON text's canonical form, so that white space and the order of keys are nothing.

    Bytes that have no canonical form (numbers past 2^53, say) are digested as they are.
    """
    try:
        return sha256(canonical_text(raw))
    except ValueError:
        return sha256(raw)
