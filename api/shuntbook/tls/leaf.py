"""The server's own certificate (the leaf), signed by the team's CA for the machine's names and addresses.

Apple takes at most 825 days from a CA that a person added (support.apple.com/103769), and asks for the names
as alternative names and for the server's usage; browsers that are stricter take 398 days at most. 397 suit all.
A new leaf strands nobody: phones trust the CA.
"""

import ipaddress
from datetime import datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from shuntbook.tls import pair
from shuntbook.tls.authority import BACKDATED, key_usage
from shuntbook.tls.names import Names
from shuntbook.tls.pair import BadPair, Pair

FOLDER = "server"
LASTS = timedelta(days=397)
RENEW_BEFORE = timedelta(days=30)


def leaf(folder: Path, ca: Pair, names: Names, now: datetime) -> tuple[Pair, bool]:
    """Return the server's pair that is kept in a folder, and whether it was made just now.

    It is made again where there is none that can be read, where the names or addresses are others, where it has
    less than 30 days left, or where another CA signed it. Errors: BadPair where it cannot be written.
    """
    kept = _kept(folder, now, ca, names)
    if kept is not None:
        return kept, False
    made = _make(ca, names, now)
    pair.put(folder / FOLDER, made)
    return made, True


def _kept(folder: Path, now: datetime, ca: Pair, names: Names) -> Pair | None:
    try:
        found = pair.read(folder / FOLDER)
    except BadPair:
        return None
    return found if found is not None and _is_good(found.certificate, now, ca, names) else None


def _is_good(found: x509.Certificate, now: datetime, ca: Pair, names: Names) -> bool:
    if not found.not_valid_before_utc <= now <= found.not_valid_after_utc - RENEW_BEFORE:
        return False
    try:
        found.verify_directly_issued_by(ca.certificate)
    except (ValueError, InvalidSignature):
        return False
    held = found.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    return set(held) == set(_alternative_names(names))


def _alternative_names(names: Names) -> list[x509.GeneralName]:
    return [
        *(x509.DNSName(name) for name in names.dns),
        *(x509.IPAddress(ipaddress.ip_address(address)) for address in names.addresses),
    ]


def _make(ca: Pair, names: Names, now: datetime) -> Pair:
    key = ec.generate_private_key(ec.SECP256R1())
    start = max(now.replace(microsecond=0) - BACKDATED, ca.certificate.not_valid_before_utc)
    # Both ends belong to a certificate's time (RFC 5280, 4.1.2.5): one second less makes it 397 days.
    end = min(start + LASTS - timedelta(seconds=1), ca.certificate.not_valid_after_utc)
    issuer_key = x509.AuthorityKeyIdentifier.from_issuer_public_key(ca.key.public_key())
    builder = (
        x509.CertificateBuilder()
        .subject_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, names.first[:64])]))
        .issuer_name(ca.certificate.subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(start)
        .not_valid_after(end)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(key_usage(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(_alternative_names(names)), critical=False)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .add_extension(issuer_key, critical=False)
    )
    return Pair(builder.sign(ca.key, SHA256()), key)
