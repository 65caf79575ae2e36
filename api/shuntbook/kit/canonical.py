"""One byte string per JSON value: the canonical form of RFC 8785 and its SHA-256.

The `rfc8785` package does the work for any value. `plain` gives the same bytes at C speed where every number is
whole, or has at most four decimals and is below 10^15: there msgspec's shortest form is the standard's too (a test
holds the two against each other).
"""

import hashlib
import json
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
    return json.dumps(msgspec.to_builtins(value), ensure_ascii=False)


def plain(value: Any) -> bytes:
    """Return the RFC 8785 form of a value with ASCII keys and short numbers (see the module's text)."""
    return msgspec.json.encode(value, order="sorted")


def sha256(data: bytes) -> str:
    """Return the SHA-256 of `data` as 64 lower-case hex digits (FIPS 180-4)."""
    return hashlib.sha256(data).hexdigest()


def digest_of(raw: bytes) -> str:
    """Return the SHA-256 of a JSON text's canonical form, so that white space and the order of keys are nothing.

    Bytes that have no canonical form (numbers past 2^53, say) are digested as they are.
    """
    try:
        return sha256(canonical(msgspec.json.decode(raw)))
    except (msgspec.DecodeError, ValueError):
        return sha256(raw)
