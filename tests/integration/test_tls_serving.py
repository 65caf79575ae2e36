"""`shuntbook serve --tls` as a process: the protocols it speaks, what it prints, the page that says how to trust it."""

import hashlib
import http.client
import json
import re
import shutil
import socket
import ssl
import threading
import warnings
from html.parser import HTMLParser

import pytest
from command import run
from process import DEADLINE_S, Serving

from ports import free_port
from shuntbook.tls import qr
from shuntbook.tls.trusting import MOST_AT_ONCE, trust_page

PERSON = "p-vera"


@pytest.fixture(scope="module")
def served(tmp_path_factory, loaded_folder):
    """A running server with TLS on loopback, its CA's folder and the port of its page."""
    folder = tmp_path_factory.mktemp("tls")
    page = free_port()
    words = ("--tls", "--host", "127.0.0.1", "--ca", folder / "ca", "--name", "van.test", "--trust-port", page)
    # The invite is left open: in a folder of its own, since other tests copy the one that was loaded.
    data = shutil.copytree(loaded_folder, folder / "data")
    with Serving(folder, data, *words, "--invite", PERSON) as serving:
        yield serving, folder / "ca", page


def context(ca) -> ssl.SSLContext:
    """Trusts the CA and nothing else; looks at names and chain as browsers do."""
    made = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    made.load_verify_locations(ca / "authority" / "certificate.pem")
    return made


def shake_hands(serving: Serving, made: ssl.SSLContext, name: str = "van.test") -> ssl.SSLSocket:
    raw = socket.create_connection(("127.0.0.1", serving.port), timeout=DEADLINE_S)
    try:
        return made.wrap_socket(raw, server_hostname=name)
    except BaseException:
        raw.close()
        raise


@pytest.mark.parametrize("name", ["van.test", "localhost", "127.0.0.1"])
@pytest.mark.parametrize("version", [ssl.TLSVersion.TLSv1_2, ssl.TLSVersion.TLSv1_3])
def test_tls_1_2_and_1_3_are_spoken_with_a_certificate_that_holds_by_the_ca(served, version, name):
    serving, ca, _ = served
    made = context(ca)
    made.minimum_version = made.maximum_version = version
    with shake_hands(serving, made, name) as secured:
        assert secured.version() == {"TLSv1_2": "TLSv1.2", "TLSv1_3": "TLSv1.3"}[version.name]


def test_tls_1_1_is_refused_by_the_server(served):
    serving, ca, _ = served
    made = context(ca)
    with warnings.catch_warnings():
        # Python warns of what this test means to do.
        warnings.simplefilter("ignore", DeprecationWarning)
        made.minimum_version = made.maximum_version = ssl.TLSVersion.TLSv1_1
    # Without this, OpenSSL itself would not offer it, and nothing would be said of the server.
    made.set_ciphers("ALL:@SECLEVEL=0")
    with pytest.raises(ssl.SSLError) as refused:
        shake_hands(serving, made)
    # RFC 8446, 6.2: an alert comes from the other side, as here handshake_failure or protocol_version.
    assert "_ALERT_" in refused.value.reason
    made.maximum_version = ssl.TLSVersion.TLSv1_2
    with shake_hands(serving, made) as secured:
        assert secured.version() == "TLSv1.2", "the same caller gets in as soon as it offers more"


@pytest.mark.parametrize(
    ("offered", "chosen"), [(["h2", "http/1.1"], "h2"), (["http/1.1"], "http/1.1"), (["h2"], "h2")]
)
def test_http_2_is_chosen_where_it_is_offered(served, offered, chosen):
    # RFC 7301 (ALPN), RFC 9113, 3.2: h2.
    serving, ca, _ = served
    made = context(ca)
    made.set_alpn_protocols(offered)
    with shake_hands(serving, made) as secured:
        assert secured.selected_alpn_protocol() == chosen


def test_nobody_who_does_not_trust_the_ca_is_talked_to(served):
    serving, _, _ = served
    with pytest.raises(ssl.SSLCertVerificationError):
        shake_hands(serving, ssl.create_default_context())


def call(served, method: str, path: str, token: str | None = None, fields: object = None):
    serving, ca, _ = served
    connection = http.client.HTTPSConnection("127.0.0.1", serving.port, timeout=DEADLINE_S, context=context(ca))
    headers = {"Host": f"van.test:{serving.port}", "Content-Type": "application/json"}
    if token:
        headers["Authorization"] = f"Bearer {token}"
    try:
        connection.request(method, f"/api/v1{path}", json.dumps(fields) if fields else None, headers)
        answer = connection.getresponse()
        return answer.status, answer.headers, json.loads(answer.read())
    finally:
        connection.close()


def printed_link(serving: Serving) -> str:
    return next(word for word in serving.out.read_text().split() if "/#/join/" in word)


def test_a_manager_joins_by_the_printed_link_and_invites_by_https_links(served):
    serving, _, _ = served
    link = printed_link(serving)
    assert link.startswith(f"https://van.test:{serving.port}/#/join/")
    status, headers, joined = call(served, "POST", "/join", fields={"code": link.rpartition("/")[2]})
    assert (status, joined["person"]) == (200, PERSON)
    # With an own CA it would lock phones out of the name for good once the CA is gone from them.
    assert "Strict-Transport-Security" not in headers
    status, _, invited = call(served, "POST", "/invites", joined["token"], {"person": "p-toma"})
    assert status == 201
    assert invited["link"].startswith(f"https://van.test:{serving.port}/#/join/")


def test_what_is_printed_tells_the_way_in(served):
    serving, ca, page = served
    printed = serving.out.read_text()
    der = ssl.PEM_cert_to_DER_cert((ca / "authority" / "certificate.pem").read_text())
    fingerprint = hashlib.sha256(der).hexdigest().upper()
    assert fingerprint in re.sub(r"[^0-9A-F]", "", printed.partition("fingerprint")[2])
    assert f"http://van.test:{page}/" in printed
    assert f"https://van.test:{serving.port}/" in printed
    assert str(ca) in printed
    # Two codes in half blocks: that of the page and that of the join link.
    for address in (f"http://van.test:{page}/", printed_link(serving)):
        assert qr.for_terminal(address, "utf-8", colours=False) in printed
    assert "PRIVATE KEY" not in printed + serving.err.read_text()


def fetch(page: int, path: str, method: str = "GET"):
    connection = http.client.HTTPConnection("127.0.0.1", page, timeout=DEADLINE_S)
    try:
        connection.request(method, path)
        answer = connection.getresponse()
        return answer.status, answer.headers, answer.read()
    finally:
        connection.close()


class Page(HTMLParser):
    """Collects what a page shows and where it leads."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.text, self.scripts = "", 0
        self.headings: list[str] = []
        self.links: list[str] = []
        self._tag = ""
        self.feed(html)

    def handle_starttag(self, tag, attributes):
        self._tag = tag
        self.scripts += tag == "script" or any(name.startswith("on") or name == "style" for name, _ in attributes)
        if tag == "a":
            self.links.append(dict(attributes)["href"])

    def handle_data(self, data):
        self.text += data
        if self._tag in ("h1", "h2", "h3") and data.strip():
            self.headings.append(data.strip())


def test_the_page_explains_the_ca_on_each_kind_of_phone(served):
    serving, ca, page = served
    status, headers, html = fetch(page, "/")
    shown = Page(html.decode())
    assert (status, headers["Content-Type"]) == (200, "text/html; charset=utf-8")
    assert {"Android", "iPhone and iPad", "Windows", "macOS", "Linux"} <= set(shown.headings)
    der = ssl.PEM_cert_to_DER_cert((ca / "authority" / "certificate.pem").read_text())
    assert hashlib.sha256(der).hexdigest().upper() in shown.text.replace(":", "")
    assert f"https://van.test:{serving.port}/" in shown.links
    assert "/shuntbook-ca.crt" in shown.links
    assert "without signal" in shown.text
    # Nothing on it runs, and nothing of it comes from elsewhere.
    assert shown.scripts == 0
    assert headers["Content-Security-Policy"].startswith("default-src 'none'")
    assert "$" not in shown.text.replace("$HOME", "")


def test_the_page_gives_away_the_certificate_and_no_key_and_no_code(served):
    serving, ca, page = served
    pem = (ca / "authority" / "certificate.pem").read_bytes()
    status, headers, der = fetch(page, "/shuntbook-ca.crt")
    # The type by which phones know a CA's certificate; RFC 5280 calls the form DER.
    assert (status, headers["Content-Type"]) == (200, "application/x-x509-ca-cert")
    assert ssl.DER_cert_to_PEM_cert(der).split() == pem.decode().split()
    assert fetch(page, "/shuntbook-ca.pem")[2] == pem
    assert fetch(page, "/page.svg")[1]["Content-Type"] == "image/svg+xml"
    assert fetch(page, "/shuntbook-ca.crt", "HEAD")[2] == b""
    code = printed_link(serving).rpartition("/")[2].encode()
    for path in ("/", "/trust.css", "/page.svg", "/shuntbook-ca.pem"):
        body = fetch(page, path)[2]
        assert b"PRIVATE KEY" not in body
        assert code not in body


@pytest.mark.parametrize("path", ["/authority/key.pem", "/../authority/key.pem", "/%2e%2e/key.pem", "/api/v1/health"])
def test_the_page_s_server_serves_nothing_else(served, path):
    assert fetch(served[2], path)[0] == 404


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE"])
def test_the_page_s_server_takes_nothing(served, method):
    assert fetch(served[2], "/", method)[0] == 501


def test_the_page_s_server_holds_so_many_connections_and_no_more(served):
    with trust_page("127.0.0.1", 0, {}) as port:
        held = [socket.create_connection(("127.0.0.1", port), timeout=DEADLINE_S) for _ in range(MOST_AT_ONCE)]
        try:
            # Each has a thread that waits for its request; the next is closed without one.
            more = socket.create_connection(("127.0.0.1", port), timeout=DEADLINE_S)
            assert more.recv(1) == b""
            more.close()
            assert sum("process_request_thread" in thread.name for thread in threading.enumerate()) <= MOST_AT_ONCE
        finally:
            for connection in held:
                connection.close()


def test_a_second_start_uses_the_ca_again_and_says_so(served, tmp_path, data_folder):
    _, ca, _ = served
    before = {path: path.read_bytes() for path in ca.rglob("*.pem")}
    words = ("--tls", "--host", "127.0.0.1", "--ca", ca, "--name", "van.test", "--trust-port", free_port())
    with Serving(tmp_path, data_folder, *words) as again:
        assert "the one of before" in again.out.read_text()
        assert again.stop()[0] == 0
    assert {path: path.read_bytes() for path in ca.rglob("*.pem")} == before


def test_a_damaged_ca_stops_the_start_with_what_to_do(tmp_path):
    folder = tmp_path / "ca" / "authority"
    folder.mkdir(parents=True)
    (folder / "certificate.pem").write_text("damaged")
    done = run("serve", "--tls", "--ca", tmp_path / "ca", "--port", free_port(), data=tmp_path / "data")
    assert done.returncode == 1
    assert "Put it back from a copy" in done.stderr


def test_a_code_is_left_out_where_the_terminal_has_no_blocks():
    assert qr.for_terminal("https://van.test:8017/", "ascii", colours=False) == ""
    assert qr.for_terminal("https://van.test:8017/", None, colours=False) == ""
    assert "█" in qr.for_terminal("https://van.test:8017/", "utf-8", colours=True)
