"""The page that explains how to trust the CA, and the files it leads to, as they are served."""

from collections.abc import Mapping
from dataclasses import dataclass
from html import escape
from pathlib import Path
from string import Template
from typing import NamedTuple

from cryptography.hazmat.primitives.serialization import Encoding
from cryptography.x509.oid import NameOID

from shuntbook.tls.names import Names
from shuntbook.tls.pair import Pair
from shuntbook.tls.qr import as_svg

HERE = Path(__file__).parent


class Served(NamedTuple):
    """One file of the page: its media type and its bytes."""

    media_type: str
    body: bytes


@dataclass(frozen=True)
class Addresses:
    """Where phones find the app and this page: `first` of the machine's names, and the others."""

    app: str
    page: str
    others: tuple[str, ...]


def addresses(names: Names, port: int, page_port: int) -> Addresses:
    """Return the addresses of the app (https) and of the page (http). Loopback is of no use to a phone."""
    of_the_machine = [name for name in (*names.dns, *names.addresses) if name not in ("localhost", "127.0.0.1", "::1")]
    others = tuple(f"https://{in_url(name)}:{port}/" for name in of_the_machine if name != names.first)
    first = in_url(names.first)
    return Addresses(f"https://{first}:{port}/", f"http://{first}:{page_port}/", others)


def in_url(name: str) -> str:
    """Return a name or address as it stands in a URL: IPv6 in brackets (RFC 3986, 3.2.2)."""
    return f"[{name}]" if ":" in name else name


def files(ca: Pair, where: Addresses) -> Mapping[str, Served]:
    """Return all that the page's server serves, by path."""
    certificate = ca.certificate
    page = Template((HERE / "trust.html").read_text()).substitute(
        fingerprint=escape(ca.fingerprint),
        name=escape(str(certificate.subject.get_attributes_for_oid(NameOID.COMMON_NAME)[0].value)),
        app=escape(where.app),
        page=escape(where.page),
        others=_others(where),
    )
    return {
        "/": Served("text/html; charset=utf-8", page.encode()),
        "/trust.css": Served("text/css; charset=utf-8", (HERE / "trust.css").read_bytes()),
        "/page.svg": Served("image/svg+xml", as_svg(where.page)),
        # The media type by which phones know a CA's certificate; DER, which all of them read.
        "/shuntbook-ca.crt": Served("application/x-x509-ca-cert", certificate.public_bytes(Encoding.DER)),
        "/shuntbook-ca.pem": Served("application/x-pem-file", certificate.public_bytes(Encoding.PEM)),
    }


def _others(where: Addresses) -> str:
    if not where.others:
        return ""
    listed = "".join(f'<li><a href="{escape(address)}">{escape(address)}</a></li>' for address in where.others)
    said = "If that name does not open on this phone, one of these may. Choose one and keep to it."
    return f"<p>{said}</p><ul>{listed}</ul>"
