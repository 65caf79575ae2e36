"""One byte string per JSON value: the canonical form of RFC 8785 and its SHA-256.

The `rfc8785` package does the work where floats can be of any size; `plain` is the same bytes at C speed
wherever the shortest form of a number in Python and in the standard agree (a test holds the two
against each other).
"""

import hashlib
import json
import re
from typing import Any

import rfc8785

APART = re.compile(r"[:,\[]-?[0-9][0-9.]*(e|\.0[,\]}])")
"""A number that Python writes otherwise than the standard: 1e-05 for 0.00001, 2.0 for 2, 1e+16."""


def canonical(value: Any) -> bytes:
    """Return `value` in RFC 8785 form. Errors: ValueError for NaN, infinity, integers past 2^53."""
    try:
        return rfc8785.dumps(value)
    except (rfc8785.CanonicalizationError, RecursionError) as error:
        raise ValueError(str(error)) from error


def plain(value: Any) -> bytes:
    """Return the RFC 8785 form of an object or array with ASCII keys."""
    text = json.dumps(
        value,
        sort_keys=True,
        separators=(",", ":"),
        ensure_ascii=False,
        allow_nan=False,
    )
    return canonical(value) if APART.search(text) else text.encode()


def sha256(data: bytes) -> str:
    """Return the SHA-256 of `data` as 64 lower-case hex digits (FIPS 180-4)."""
    return hashlib.sha256(data).hexdigest()
