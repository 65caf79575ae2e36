"""HTTPS with the team's own CA in WebKit: refused unless the machine trusts it, then whole, over HTTP/2."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from server import EVENT, without_entries
from test_tls import LISTEN, STREAMS
from van import VanServer

from .phone import WebKitPhone
from .screen import Screen
from .trusting import Trust

NAME = "van.localhost"
"""RFC 6761: every name under localhost is this machine, with no entry anywhere."""

# Of these requests alone: what the app itself loads meanwhile may come from its worker, with no protocol at all.
PROTOCOLS = """
  const asked = performance.getEntriesByType('resource').filter((one) => new URL(one.name).pathname === arguments[0]);
  return [...new Set(asked.map((one) => one.nextHopProtocol))];
"""


@pytest.fixture(scope="module")
def van(tmp_path_factory: pytest.TempPathFactory) -> Iterator[VanServer]:
    """A server on the van's network, with HTTPS."""
    folder = tmp_path_factory.mktemp("van")
    data = without_entries(folder / "data", folder / "event", []).data
    server = VanServer(data, folder / "ca", tls=True, name=NAME)
    server.start()
    yield server
    server.stop()


@contextmanager
def new_phone(profile: Path, screen: Screen) -> Iterator[WebKitPhone]:
    phone = WebKitPhone(profile, screen)
    try:
        yield phone
    finally:
        phone.kill()


@pytest.mark.longer
def test_without_the_ca_the_page_is_refused(van: VanServer, screen: Screen, tmp_path: Path) -> None:
    with new_phone(tmp_path / "phone", screen) as phone:
        is_refused(phone, van)


def is_refused(phone: WebKitPhone, van: VanServer) -> None:
    """WebKitGTK shows a page of its own instead, and its driver reports no error."""

    def is_shown() -> bool:
        # A browser that has only just started may be told to go before it is ready, and shows that it was cancelled.
        phone.go(van.url)
        return phone.is_said("Unacceptable TLS certificate")

    phone.until(is_shown, "the page to be refused")
    assert phone.run("return location.href") == "about:blank"


def test_with_the_ca_all_is_there_with_the_server_gone_and_news_comes_over_http_2(
    van: VanServer, screen: Screen, trust: Trust, tmp_path: Path
) -> None:
    with trust(van.ca / "authority" / "certificate.pem"), new_phone(tmp_path / "phone", screen) as toma:
        toma.join(van, "p-toma")
        assert toma.run("return [isSecureContext, location.origin]") == [True, f"https://{NAME}:{van.port}"]
        # Over HTTP/1.1 the seventh would wait for ever.
        code = van.link("p-bodo").rpartition("/")[2]
        path = f"/api/v1/events/{EVENT}/cars/41/queue"
        assert toma.run(f"return ({LISTEN})(arguments[0])", [code, STREAMS, path]) == [STREAMS, "41"]
        assert toma.run(PROTOCOLS, path) == ["h2"]
        van.stop()
        # Killed and opened again: within one browser WebKit, seldom, never opens a store that the page before it had,
        # and the app can only say so (`flow/slow_store.ts`).
        toma.kill()
        toma.open()
        toma.go(f"{van.url}/#/log")
        toma.logs("Front left", "Wheel rim")
        van.start()
        toma.until(lambda: len(van.entries()) == 1, "the report on the server")
        assert toma.complaints == []
    with new_phone(tmp_path / "another", screen) as phone:
        is_refused(phone, van)
