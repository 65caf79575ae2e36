"""A certificate with its private key as two PEM files in a folder of their own."""

import os
import secrets
import shutil
from dataclasses import dataclass
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric.ec import EllipticCurvePrivateKey
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat, load_pem_private_key

from shuntbook.kit.errors import ShuntbookError

CERTIFICATE = "certificate.pem"
KEY = "key.pem"
OWNER_ONLY = 0o600


class BadPair(ShuntbookError):
    """The files of a certificate or its key are damaged, or do not belong together."""


@dataclass(frozen=True)
class Pair:
    """A certificate and the private key to it (ECDSA P-256)."""

    certificate: x509.Certificate
    key: EllipticCurvePrivateKey

    @property
    def fingerprint(self) -> str:
        """Return the certificate's SHA-256 as phones show it: pairs of hex digits with colons."""
        return self.certificate.fingerprint(SHA256()).hex(":").upper()


def read(folder: Path) -> Pair | None:
    """Return the pair that lies in a folder, None where there is no such folder. Errors: BadPair."""
    if not folder.exists():
        return None
    try:
        _keep_private(folder / KEY)
        certificate = x509.load_pem_x509_certificate((folder / CERTIFICATE).read_bytes())
        key = load_pem_private_key((folder / KEY).read_bytes(), None)
    except (OSError, ValueError, TypeError) as error:
        raise BadPair(f"{folder}: {error}") from error
    if not isinstance(key, EllipticCurvePrivateKey) or key.public_key() != certificate.public_key():
        raise BadPair(f"{folder}: the key is not the certificate's")
    return Pair(certificate, key)


def put(folder: Path, pair: Pair) -> None:
    """Put a pair in a folder, in place of what lay there. Errors: BadPair."""
    old = folder.with_name(f".{folder.name}.{secrets.token_hex(4)}")
    try:
        if folder.exists():
            folder.rename(old)
        _written(folder, pair).rename(folder)
    except OSError as error:
        raise _unwritable(folder, error) from error
    shutil.rmtree(old, ignore_errors=True)


def put_new(folder: Path, pair: Pair) -> bool:
    """Put a pair in a folder that is not there yet, whole or not at all; False where it is. Errors: BadPair."""
    try:
        beside = _written(folder, pair)
    except OSError as error:
        raise _unwritable(folder, error) from error
    try:
        beside.rename(folder)
    except OSError as error:
        shutil.rmtree(beside, ignore_errors=True)
        if not folder.exists():
            raise _unwritable(folder, error) from error
        return False
    return True


def _written(folder: Path, pair: Pair) -> Path:
    folder.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    beside = folder.with_name(f".{folder.name}.{secrets.token_hex(4)}")
    beside.mkdir(mode=0o700)
    # PKCS#8, as the server's TLS library asks for.
    key = pair.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    _private(beside / KEY, key)
    _private(beside / CERTIFICATE, pair.certificate.public_bytes(Encoding.PEM))
    return beside


def _keep_private(key: Path) -> None:
    if os.name == "posix" and key.stat().st_mode & 0o077:
        key.chmod(OWNER_ONLY)


def _unwritable(folder: Path, error: OSError) -> BadPair:
    return BadPair(f"{folder}: {error}. Free the disk, or name another folder with --ca")


def _private(path: Path, data: bytes) -> None:
    path.touch(mode=OWNER_ONLY, exist_ok=False)
    path.write_bytes(data)
