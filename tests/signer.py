"""A device of a test: makes a key pair and signs entries as a phone does, with `cryptography` alone."""

import base64

import rfc8785
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import decode_dss_signature
from cryptography.hazmat.primitives.hashes import SHA256

from making import Json


class Signer:
    """A device's private key. `jwk` is its public half."""

    def __init__(self) -> None:
        self._key = ec.generate_private_key(ec.SECP256R1())
        point = self._key.public_key().public_numbers()
        x, y = (_text(number.to_bytes(32)) for number in (point.x, point.y))
        self.jwk = {"kty": "EC", "crv": "P-256", "x": x, "y": y}

    def sign(self, entry: Json) -> Json:
        """Return the entry with its signature: r‖s over the RFC 8785 bytes of what is signed."""
        r, s = decode_dss_signature(self._key.sign(rfc8785.dumps(entry), ec.ECDSA(SHA256())))
        return {**entry, "sig": _text(r.to_bytes(32) + s.to_bytes(32))}


def _text(data: bytes) -> str:
    return base64.urlsafe_b64encode(data).rstrip(b"=").decode()
