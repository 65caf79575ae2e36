"""The team's own certificate authority (CA): made once, then kept and used again.

A phone trusts this one certificate. Made again, it would be another: every phone that trusted the old one could
reach the server no more, and what it had not sent yet would wait on it. So a CA is never replaced while it is
valid, and one that cannot be read is a reason to stop, not to make another.
"""

from datetime import UTC, datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.x509.oid import NameOID

from shuntbook.tls import pair
from shuntbook.tls.pair import BadPair, Pair

FOLDER = "authority"
LASTS = timedelta(days=3650)
# A phone whose clock is behind by less than a day takes a certificate made this minute.
BACKDATED = timedelta(days=1)
EARLIEST = datetime(2025, 1, 1, tzinfo=UTC)
"""No clock that goes right shows an earlier time than this program was written at."""
LAST_RESORT = (
    "Only if that can't be done: see that every phone has sent all it holds, move the folder away, start again, and"
    " every phone has to trust the new one"
)


def authority(folder: Path, host: str, now: datetime) -> tuple[Pair, bool]:
    """Return the CA that is kept in a folder, and whether it was made just now, by the name of `host`.

    Errors: BadPair where it is damaged, cannot be written, or by the machine's clock is not valid.
    """
    kept = _kept(folder, now)
    if kept is not None:
        return kept, False
    if now < EARLIEST:
        raise BadPair(f"this machine's clock says {now:%Y-%m-%d}; set it, or no phone will take the certificate")
    made = _make(host, now)
    if pair.put_new(folder / FOLDER, made):
        return made, True
    # Another process made one in this very moment: that is the one.
    return authority(folder, host, now)[0], False


def _kept(folder: Path, now: datetime) -> Pair | None:
    try:
        found = pair.read(folder / FOLDER)
    except BadPair as error:
        raise BadPair(
            f"the CA that phones trust can't be read: {error}. Put it back from a copy. {LAST_RESORT}"
        ) from error
    if found is not None:
        _is_valid_by(now, found.certificate, folder)
    return found


def _is_valid_by(now: datetime, certificate: x509.Certificate, folder: Path) -> None:
    """Refuse a CA out of its time. It may be the clock that is wrong, so this is no reason to make another."""
    start, end = certificate.not_valid_before_utc, certificate.not_valid_after_utc
    if not start <= now <= end:
        raise BadPair(
            f"this machine's clock says {now:%Y-%m-%d}, and the CA in {folder / FOLDER} is valid from"
            f" {start:%Y-%m-%d} to {end:%Y-%m-%d}. Set the clock if it is wrong. {LAST_RESORT}"
        )


def _make(host: str, now: datetime) -> Pair:
    key = ec.generate_private_key(ec.SECP256R1())
    start = now.replace(microsecond=0) - BACKDATED
    # The host and the day, so that a list of trusted CAs tells two of them apart; 64 letters are X.520's most.
    name = x509.Name(
        [
            x509.NameAttribute(NameOID.ORGANIZATION_NAME, "Shuntbook"),
            x509.NameAttribute(NameOID.COMMON_NAME, f"Shuntbook CA {now:%Y-%m-%d} {host}"[:64]),
        ]
    )
    builder = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(start)
        .not_valid_after(start + LASTS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(key_usage(signs_certificates=True), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )
    return Pair(builder.sign(key, SHA256()), key)


def key_usage(*, signs_certificates: bool) -> x509.KeyUsage:
    """Return what a key is for (RFC 5280, 4.2.1.3): a CA's signs certificates, a server's signs its handshakes."""
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )
