"""Signatures of entries: ECDSA on P-256 with SHA-256 (FIPS 186-5), over the entry's RFC 8785 bytes.

A signature is the 64 bytes r‖s that WebCrypto gives (IEEE P1363), as base64url without padding; a key is a public
JWK (RFC 7517, RFC 7518 section 6.2): {"kty": "EC", "crv": "P-256", "x": "…", "y": "…"}.
"""

import base64
import binascii
from collections.abc import Mapping
from typing import Any

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ec import (
    ECDSA,
    SECP256R1,
    EllipticCurvePublicKey,
    EllipticCurvePublicNumbers,
)
from cryptography.hazmat.primitives.asymmetric.utils import encode_dss_signature
from cryptography.hazmat.primitives.hashes import SHA256

from shuntbook.kit.canonical import canonical, canonical_text

FIELD = 32
"""Bytes of a coordinate, and of each half of a signature."""


def public_key(jwk: Mapping[str, Any]) -> EllipticCurvePublicKey:
    """Return the key of a public JWK. Errors: ValueError where it is none, or not a point of P-256."""
    if jwk.get("kty") != "EC" or jwk.get("crv") != "P-256":
        raise ValueError("the key is not a P-256 public key as a JWK")
    x, y = (_unpacked(str(jwk.get(name, "")), FIELD) for name in ("x", "y"))
    return EllipticCurvePublicNumbers(int.from_bytes(x), int.from_bytes(y), SECP256R1()).public_key()


def signed_bytes(entry: Mapping[str, Any]) -> bytes:
    """Return the bytes that are signed: the entry without its `sig`, in RFC 8785 form. Errors: ValueError."""
    return canonical({name: value for name, value in entry.items() if name != "sig"})


def signed_text(raw: bytes) -> bytes:
    """Return the bytes that are signed of an entry as its JSON text. Errors: ValueError."""
    return canonical_text(raw, without="sig")


def is_good(signature: str, message: bytes, key: EllipticCurvePublicKey) -> bool:
    """Return whether `signature` over `message` was made with the private half of `key`."""
    try:
        halves = _unpacked(signature, 2 * FIELD)
    except ValueError:
        return False
    der = encode_dss_signature(int.from_bytes(halves[:FIELD]), int.from_bytes(halves[FIELD:]))
    try:
        key.verify(der, message, ECDSA(SHA256()))
    except InvalidSignature:
        return False
    return True


def _unpacked(text: str, length: int) -> bytes:
    if "=" in text:
        raise ValueError("base64url with padding, where there is to be none (RFC 7515, section 2)")
    try:
        data = base64.b64decode(text + "=" * (-len(text) % 4), altchars=b"-_", validate=True)
    except (binascii.Error, ValueError) as error:
        raise ValueError(f"not base64url: {error}") from error
    if base64.urlsafe_b64encode(data).rstrip(b"=").decode() != text:
        # Bits that the last letter has to spare would let anybody write one signature in several ways.
        raise ValueError("not base64url in its one form: spare bits are set (RFC 4648, section 3.5)")
    if len(data) != length:
        raise ValueError(f"{len(data)} bytes where {length} are wanted")
    return data
