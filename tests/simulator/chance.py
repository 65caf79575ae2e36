"""The server's clock and chance, taken from the simulator: what the machine says of both plays no part."""

import uuid
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from datetime import UTC, datetime, tzinfo
from random import Random
from unittest.mock import patch

from shuntbook.flow import backups, clock
from shuntbook.store import copies, database, people


class Told:
    """The time that the simulator tells, in Unix ms, and chance from a seed. Stands for what modules ask of both."""

    def __init__(self) -> None:
        self.now_ms = 0
        self.random = Random(0)

    def now(self, zone: tzinfo = UTC) -> datetime:
        """Return the time, as `datetime.now`."""
        return datetime.fromtimestamp(self.now_ms / 1000, zone)

    def fromisoformat(self, text: str) -> datetime:
        """Return the time that a text says, as `datetime.fromisoformat`."""
        return datetime.fromisoformat(text)

    def token_hex(self, length: int) -> str:
        """Return text of so many bytes in hex, as `secrets.token_hex`."""
        return self.random.randbytes(length).hex()

    def token_urlsafe(self, length: int) -> str:
        """Return a token, as `secrets.token_urlsafe`."""
        return self.random.randbytes(length).hex()

    def choice(self, letters: str) -> str:
        """Return one of some letters, as `secrets.choice`."""
        return self.random.choice(letters)

    def uuid4(self) -> uuid.UUID:
        """Return a UUID, as `uuid.uuid4`."""
        return uuid.UUID(bytes=self.random.randbytes(16), version=4)


@contextmanager
def in_place_of_the_machine(told: Told) -> Iterator[None]:
    """Have the server ask the simulator for the time and for chance."""
    with ExitStack() as stack:
        for module, name in (
            (clock, "datetime"),
            (people, "secrets"),
            (backups, "secrets"),
            (database, "uuid"),
            (copies, "uuid"),
        ):
            stack.enter_context(patch.object(module, name, told))
        yield
