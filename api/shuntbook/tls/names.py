"""The names and addresses that phones may reach this machine by."""

import ipaddress
import re
import socket
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import psutil

from shuntbook.kit.errors import NotAllowed

LABEL = r"[a-z0-9_]([a-z0-9_-]{0,61}[a-z0-9_])?"
LOOPBACK = ("127.0.0.1", "::1")
DNS_NAME = re.compile(rf"(?=.{{1,253}}$){LABEL}(\.{LABEL})*")


@dataclass(frozen=True)
class Names:
    """What the server's certificate is good for.

    first: the name to print and to keep to; dns, addresses: all of them, addresses as `ipaddress` writes them.
    """

    first: str
    dns: tuple[str, ...]
    addresses: tuple[str, ...]


def this_machine(given: Sequence[str] = ()) -> Names:
    """Return the names and addresses of this machine, those `given` first. Errors: NotAllowed for one that is none."""
    found = (address.address for addresses in psutil.net_if_addrs().values() for address in addresses)
    return names_of(socket.gethostname(), found, given)


def names_of(host: str, found: Iterable[str], given: Sequence[str] = ()) -> Names:
    """Return a machine's names from its host name and its interfaces' addresses.

    `found` may hold what is no IP address, such as a card's hardware address. A link-local IPv6 address is left
    out: it works in no link. Errors: NotAllowed for a `given` word that is neither a name nor an address.
    """
    own = _of_host(host)
    asked = [_given(word) for word in given]
    addresses = [word for word in asked if _address(word)]
    addresses += [address for word in found if (address := _address(word)) and not _local_to_link(address)]
    addresses = sorted(set(addresses) - set(LOOPBACK), key=_version_4_first)
    dns = [word for word in asked if not _address(word)] + own + ["localhost"]
    first = [*asked, *(name for name in own if name.endswith(".local")), *addresses, "localhost"][0]
    return Names(first, tuple(dict.fromkeys(dns)), (*addresses, *LOOPBACK))


def _of_host(host: str) -> list[str]:
    """Return a host's names: in full, its first label, and that label under .local, which mDNS (RFC 6762) answers."""
    full = host.lower().rstrip(".")
    short = full.partition(".")[0]
    names = [full, short, f"{short}.local"]
    return [name for name in names if DNS_NAME.fullmatch(name) and short != "localhost"]


def _given(word: str) -> str:
    word = word.strip().lower().rstrip(".")
    address = _address(word)
    if address is None and not DNS_NAME.fullmatch(word):
        raise NotAllowed(f"{word!r} is no name or address of a machine; name it like van.lan or 192.168.8.10")
    return address or word


def _address(word: str) -> str | None:
    try:
        return str(ipaddress.ip_address(word.partition("%")[0]))
    except ValueError:
        return None


def _version_4_first(address: str) -> tuple[bool, str]:
    return ":" in address, address


def _local_to_link(address: str) -> bool:
    parsed = ipaddress.ip_address(address)
    return parsed.version == 6 and parsed.is_link_local
