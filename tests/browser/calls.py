"""What a phone asks of the server, noted while somebody does something on it or on another."""

import re
from collections.abc import Iterator
from contextlib import contextmanager

from crew import Member
from phones import wait_until
from playwright.sync_api import Request

REST_MS = 700
API = re.compile(r"/api/v1/(?!live|photos|health)([^?]*)")


def name_of(request: Request) -> str:
    found = API.search(request.url)
    if not found:
        return ""
    last = found[1].rpartition("/")[2]
    return f"{request.method} {last}"


@contextmanager
def calls_of(member: Member) -> Iterator[list[str]]:
    """Note a phone's calls while this is open, by method and the last word of the path."""
    noted: list[str] = []

    def note(request: Request) -> None:
        if name := name_of(request):
            noted.append(name)

    member.page.on("request", note)
    yield noted
    member.page.remove_listener("request", note)


def come_to_rest(members: list[Member]) -> None:
    """Wait until no phone has called for a while: what they still ask for of before is not of what is counted."""
    for member in members:
        with calls_of(member) as noted:
            before = -1
            while before != len(noted):
                before = len(noted)
                member.page.wait_for_timeout(REST_MS)


def hears(member: Member, noted: list[str], *expected: str) -> None:
    """Wait until a phone has made these calls since the last time; more than these are a fault, then or later."""
    wait_until(member.page, lambda: len(noted) >= len(expected))
    assert noted == list(expected), f"{member.person}: {noted}"
    noted.clear()
