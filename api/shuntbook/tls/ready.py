"""Makes, or uses again, all that HTTPS on this machine needs."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from shuntbook.tls import leaf as server
from shuntbook.tls.authority import authority
from shuntbook.tls.names import this_machine
from shuntbook.tls.page import Addresses, addresses
from shuntbook.tls.pair import CERTIFICATE, KEY, Pair


@dataclass(frozen=True)
class Ready:
    """The CA and where it is kept, whether it was made just now, the server's files, and where phones go."""

    ca: Pair
    ca_folder: Path
    made: bool
    certificate: Path
    key: Path
    where: Addresses


def make_ready(ca_folder: Path, given: Sequence[str], port: int, page_port: int, now: datetime) -> Ready:
    """Make or use again the CA and the server's certificate for this machine's names, those `given` first.

    Errors: NotAllowed for a name that is none; BadPair where the CA can't be read, or a file can't be written.
    """
    names = this_machine(given)
    ca, made = authority(ca_folder, names.dns[0], now)
    server.leaf(ca_folder, ca, names, now)
    folder = ca_folder / server.FOLDER
    return Ready(ca, ca_folder, made, folder / CERTIFICATE, folder / KEY, addresses(names, port, page_port))
