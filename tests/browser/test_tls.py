"""HTTPS on a LAN-like name in a real browser that trusts the CA; plain http there, where offline is not to be had."""

import ssl
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from downloads import save
from looking import axe_finds, too_wide
from phones import wait_until
from playwright.sync_api import Error, Playwright, expect
from server import EVENT, with_sample
from van import NAME, VanPhone, VanServer

STREAMS = 10
"""More than the six connections that a browser opens to one server over HTTP/1.1."""
UNKNOWN_ISSUER = "ERR_CERT_AUTHORITY_INVALID|SEC_ERROR_UNKNOWN_ISSUER"
OTHER_ISSUER = "ERR_CERT_AUTHORITY_INVALID|SEC_ERROR_BAD_SIGNATURE"
"""Firefox finds a CA of the right name, since they all have the same, and then that it has signed nothing here."""
NOBODY_THERE = (
    "ERR_(CONNECTION_REFUSED|CONNECTION_RESET|CONNECTION_CLOSED|EMPTY_RESPONSE)"
    "|NS_ERROR_(CONNECTION_REFUSED|NET_RESET|NET_EMPTY_RESPONSE)"
)


@pytest.fixture
def van(tmp_path: Path) -> Iterator[Callable[..., VanServer]]:
    """Makes servers on the van's network, with the sample event."""
    servers: list[VanServer] = []

    def make(*, tls: bool) -> VanServer:
        servers.append(VanServer(with_sample(tmp_path / "data").data, tmp_path / "ca", tls=tls))
        servers[-1].start()
        return servers[-1]

    yield make
    for server in servers:
        server.stop()


@pytest.fixture
def pocket(playwright: Playwright, tmp_path: Path) -> Iterator[Callable[..., VanPhone]]:
    """Makes phones that trust a server's CA, or none."""
    phones: list[VanPhone] = []

    def make(trusts: VanServer | None) -> VanPhone:
        certificate = trusts.ca / "authority" / "certificate.pem" if trusts else None
        phones.append(VanPhone(playwright, tmp_path / f"home-{len(phones)}", certificate))
        return phones[-1]

    yield make
    for phone in phones:
        phone.close()


def registrations(phone: VanPhone) -> int:
    return phone.page.evaluate(
        "async () => navigator.serviceWorker ? (await navigator.serviceWorker.getRegistrations()).length : -1"
    )


@pytest.mark.longer
def test_over_https_on_a_lan_name_the_app_works_with_the_server_gone(
    van: Callable[..., VanServer], pocket: Callable[..., VanPhone]
) -> None:
    server = van(tls=True)
    toma = pocket(server)
    page = toma.join(server, "p-toma")
    assert page.url.startswith(f"https://{NAME}:{server.port}/")
    assert page.evaluate("isSecureContext") is True
    assert registrations(toma) == 1
    expect(page.locator(".insecure")).to_have_count(0)
    toma.show("me").get_by_text("Ready to work without signal ✓").wait_for()

    server.stop()
    page.goto("about:blank")
    page.goto(f"{server.url}/#/log")
    page.get_by_role("button", name="Front left").first.click()
    page.get_by_label("Wheel rim", exact=True).check()
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_text("Kept on this phone").wait_for()

    # The server comes back with the same CA and, its names being the same, the same certificate.
    before = len(server.entries())
    server.start()
    wait_until(page, lambda: len(server.entries()) == before + 1)
    assert toma.complaints == []


def test_without_the_ca_the_browser_does_not_open_the_app(
    van: Callable[..., VanServer], pocket: Callable[..., VanPhone]
) -> None:
    server = van(tls=True)
    with pytest.raises(Error, match=UNKNOWN_ISSUER):
        pocket(None).page.goto(server.url)


@pytest.mark.longer
def test_another_teams_ca_opens_nothing_either(
    van: Callable[..., VanServer], pocket: Callable[..., VanPhone], tmp_path: Path
) -> None:
    server = van(tls=True)
    other = VanServer(tmp_path / "other-data", tmp_path / "other-ca", tls=True)
    other.start()
    other.stop()
    with pytest.raises(Error, match=OTHER_ISSUER):
        pocket(other).page.goto(server.url)


@pytest.mark.longer
def test_over_plain_http_on_a_lan_name_no_worker_registers_and_every_screen_says_so(
    van: Callable[..., VanServer], pocket: Callable[..., VanPhone]
) -> None:
    server = van(tls=False)
    toma = pocket(None)
    page = toma.page
    says_so = page.get_by_text("it does not open without signal")
    page.goto(server.url)
    says_so.wait_for()
    page.get_by_role("heading", name="Join your team").wait_for()
    page.goto(server.link("p-toma"))
    page.get_by_role("button", name="Car 41").or_(page.get_by_role("combobox", name="Which car")).first.wait_for()
    assert page.evaluate("isSecureContext") is False
    assert registrations(toma) == -1, "the browser has no service worker to offer here"
    for screen in ("log", "reports", "service", "me"):
        toma.show(screen)
        says_so.wait_for()
        assert too_wide(page) == []
    page.get_by_text("Does not open without signal here").wait_for()
    # And it is so: with the server gone there is no app. Which error comes depends on the connections still open.
    server.stop()
    with pytest.raises(Error, match=NOBODY_THERE):
        page.reload()


LISTEN = """async ([code, streams, path]) => {
  const answer = await fetch('/api/v1/join', {
    method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify({ code }) });
  const headers = { Authorization: `Bearer ${(await answer.json()).token}` };
  const open = await Promise.all([...Array(streams)].map(() => fetch('/api/v1/live', { headers })));
  const firsts = await Promise.all(open.map(async (one) => (await one.body.getReader().read()).value.length));
  const queue = await (await fetch(path, { headers })).json();
  return [firsts.filter((length) => length > 0).length, queue.car];
}"""


@pytest.mark.longer
def test_more_streams_than_a_browser_has_connections_block_nothing_over_http_2(
    van: Callable[..., VanServer], pocket: Callable[..., VanPhone]
) -> None:
    server = van(tls=True)
    page = pocket(server).page
    page.goto(server.url)
    page.get_by_role("heading", level=1).first.wait_for()
    code = server.link("p-bodo").rpartition("/")[2]
    # Over HTTP/1.1 the seventh would wait for ever.
    path = f"/api/v1/events/{EVENT}/cars/41/queue"
    assert page.evaluate(LISTEN, [code, STREAMS, path]) == [STREAMS, "41"]
    assert page.evaluate("performance.getEntriesByType('navigation')[0].nextHopProtocol") == "h2"


@pytest.mark.longer
def test_the_page_that_explains_leads_to_the_certificate_and_to_the_app(
    van: Callable[..., VanServer], pocket: Callable[..., VanPhone]
) -> None:
    server = van(tls=True)
    phone = pocket(server)
    page = phone.page
    page.goto(server.page_url)
    page.get_by_role("heading", name="Trust the van's server").wait_for()
    assert axe_finds(page) == []
    assert too_wide(page) == []
    fetched = save(page, page.get_by_role("link", name="Download the certificate").click)
    pem = (server.ca / "authority" / "certificate.pem").read_text()
    assert fetched.name == "shuntbook-ca.crt"
    assert fetched.data == ssl.PEM_cert_to_DER_cert(pem)
    page.get_by_role("link", name=f"https://{NAME}").click()
    page.get_by_role("heading", name="Join your team").wait_for()
    assert page.url.startswith(f"{server.url}/")
    assert phone.complaints == []
