"""The server as a process: what it refuses, how it stops with phones listening, what it writes down."""

import http.client
import json
import signal
import socket
import threading

import psutil
import pytest
from command import run
from process import DEADLINE_S, Installed, Serving

from phone import NOW
from ports import free_port
from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.serving import is_loopback
from shuntbook.store.database import FILE, Store

LISTENERS = 20


@pytest.fixture
def token(data_folder):
    store = Store(data_folder)
    return joining.join(store, joining.invite(store, "p-vera", NOW), None, NOW)[1]


@pytest.mark.parametrize("host", ["0.0.0.0", "192.168.8.10", "::", "fd00::2", "van.local"])
@pytest.mark.parametrize("command", ["serve", "demo"])
def test_plain_http_beyond_this_machine_is_refused_with_what_to_do(tmp_path, command, host):
    done = run(command, "--host", host, "--port", free_port(), data=tmp_path / "data")
    assert done.returncode == 1
    assert "serve --tls" in done.stderr
    assert "--insecure" in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert not (tmp_path / "data").exists()


@pytest.mark.parametrize(
    ("host", "here"),
    [("127.0.0.1", True), ("127.8.8.8", True), ("::1", True), ("localhost", True), ("0.0.0.0", False), ("van", False)],
)
def test_loopback_is_what_only_this_machine_reaches(host, here):
    # RFC 1122, 3.2.1.3: all of 127/8; RFC 4291, 2.5.3: ::1.
    assert is_loopback(host) is here


def test_it_serves_beyond_this_machine_where_that_is_asked_for(data_folder, tmp_path):
    with Serving(tmp_path, data_folder, "--host", "0.0.0.0", "--insecure") as serving:
        assert serving.call("GET", "/api/v1/health")[0] == 200


def test_a_port_that_is_taken_is_refused_with_a_sentence(data_folder, tmp_path):
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        done = run("serve", "--port", port, data=data_folder)
        assert done.returncode == 1
        assert f"port {port}" in done.stderr
        words = ("--tls", "--host", "127.0.0.1", "--ca", tmp_path / "ca", "--trust-port", port)
        page = run("serve", "--port", free_port(), *words, data=data_folder)
    assert page.returncode == 1
    assert "--trust-port" in page.stderr


def test_one_server_to_a_folder_the_rest_beside_it_and_another_at_once_after_a_kill(data_folder, tmp_path):
    data_folder.chmod(0o755)
    with Serving(tmp_path, data_folder) as serving:
        assert f"{data_folder} was open" in serving.out.read_text()
        assert data_folder.stat().st_mode & 0o777 == 0o700
        for words in (("--port", free_port()), ("--tls", "--ca", tmp_path / "ca", "--port", free_port())):
            second = run("serve", *words, data=data_folder)
            assert second.returncode == 1
            told = (str(data_folder), f"process {serving.process.pid}", f"port {serving.port}")
            assert [word for word in told if word not in second.stderr] == []
        assert not (tmp_path / "ca").exists()
        beside = (("check",), ("backup", tmp_path / "copy.zip"), ("invite", "--person", "p-toma"))
        assert [run(*words, data=data_folder).returncode for words in beside] == [0, 0, 0]
        family = psutil.Process(serving.process.pid).children(recursive=True)
        assert family
        serving.process.kill()
        with Serving(tmp_path, data_folder) as again:
            assert again.call("GET", "/api/v1/health")[0] == 200
            assert psutil.wait_procs(family, DEADLINE_S)[1] == [], "a worker outlived the server that was killed"


def test_no_open_database_is_carried_into_the_process_that_serves(data_folder, tmp_path):
    # sqlite.org/howtocorrupt.html, section 2.6. The one that was forked from opens none again: what it held, it holds.
    words = ("--owner", "p-vera", "--invite", "p-toma", "--rebuild")
    with Serving(tmp_path, data_folder, *words) as serving:
        assert serving.call("GET", "/api/v1/health")[0] == 200
        held = [file.path for file in psutil.Process(serving.process.pid).open_files()]
        assert [path for path in held if FILE in path] == []


def listen(port: int, token: str) -> tuple[http.client.HTTPConnection, http.client.HTTPResponse]:
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=DEADLINE_S)
    connection.request("GET", "/api/v1/live", headers={"Authorization": f"Bearer {token}"})
    answer = connection.getresponse()
    assert answer.status == 200
    assert answer.readline() == b"event: changed\n"
    return connection, answer


@pytest.mark.parametrize(
    ("way", "how"), [(Installed, signal.SIGTERM), (Serving, signal.SIGTERM), (Serving, signal.SIGINT)]
)
def test_it_stops_by_itself_with_phones_listening(data_folder, tmp_path, token, way, how):
    """Also where it is forked from a warmed process: in that, other tests may take it for the installed command."""
    with way(tmp_path, data_folder) as serving:
        listeners = [listen(serving.port, token) for _ in range(LISTENERS)]
        status, took_s = serving.stop(how)
        for connection, answer in listeners:
            # Each stream came to its end; a cut one would raise here.
            assert b"cursor" in answer.read()
            connection.close()
    messages = [str(line["message"]) for line in serving.lines()]
    assert status == 0, messages
    assert not [message for message in messages if "Killing" in message], f"{took_s:.1f} s"
    assert any("shutdown completed" in message for message in messages)
    with pytest.raises(ConnectionRefusedError):
        serving.call("GET", "/api/v1/health")


def test_an_answer_is_whole_or_not_there_at_all_when_it_is_told_to_stop(data_folder, tmp_path, token):
    """Requests follow one another without a pause, one of them in the very moment of the stop."""
    cut, answered = [], []
    with Serving(tmp_path, data_folder) as serving:
        began = threading.Event()

        def ask() -> None:
            headers = {"Authorization": f"Bearer {token}"}
            while True:
                try:
                    status, _, body = serving.call("GET", "/api/v1/events/thornquell-2026/costs", headers)
                except ConnectionError:
                    return
                except (http.client.HTTPException, OSError) as error:
                    cut.append(error)
                    return
                answered.append((status, json.loads(body)["event"]))
                began.set()

        threads = [threading.Thread(target=ask) for _ in range(4)]
        for thread in threads:
            thread.start()
        assert began.wait(DEADLINE_S)
        serving.stop()
        for thread in threads:
            thread.join(DEADLINE_S)
    assert cut == []
    assert set(answered) == {(200, "thornquell-2026")}


def test_each_request_is_a_line_of_json_with_its_id_and_no_secret(data_folder, tmp_path, token):
    store = Store(data_folder)
    code = joining.invite(store, "p-toma", now())
    device = store.db.execute("SELECT device FROM device").fetchone()[0]
    with Serving(tmp_path, data_folder) as serving:
        bearer = {"Authorization": f"Bearer {token}", "X-Request-Id": "phone-1.try-7"}
        _, headers, _ = serving.call("GET", "/api/v1/setup?secret=in-the-query", bearer)
        assert headers["X-Request-Id"] == "phone-1.try-7"
        body = json.dumps({"code": code}).encode()
        status, headers, joined = serving.call("POST", "/api/v1/join", {"Content-Type": "application/json"}, body)
        assert status == 200
        given = headers["X-Request-Id"]
        # A link that lost its #, a token that was put into a path, a photo's digest, an id that is none.
        digest = "0a" * 32
        for path in (f"/join/{code}", f"/join/{code.lower()}", f"/api/v1/{token}", f"/api/v1/photos/{digest}"):
            serving.call("GET", path, {"X-Request-Id": 'no id", "level": "critical'})
        serving.stop()
    lines = [line for line in serving.lines() if line["logger"] == "shuntbook.request"]
    first, second, *rest = [line for line in lines if line["path"] != "/api/v1/health"]
    assert (first["request"], first["method"], first["path"], first["status"]) == (
        "phone-1.try-7",
        "GET",
        "/api/v1/setup",
        200,
    )
    assert first["device"] == device
    assert (second["request"], second["path"], second["device"]) == (given, "/api/v1/join", None)
    assert [line["path"] for line in rest] == ["/join/…", "/join/…", "/api/v1/…", f"/api/v1/photos/{digest}"]
    assert {line["level"] for line in lines} == {"info"}
    for line in lines:
        assert set(line) >= {"time", "level", "request", "method", "path", "status", "ms", "device"}
        assert float(str(line["ms"])) >= 0
    written = serving.err.read_text().lower()
    for secret in (token, code, json.loads(joined)["token"], "in-the-query", "bearer"):
        assert secret.lower() not in written


def test_an_invite_is_printed_where_it_is_asked_for(data_folder, tmp_path):
    with Serving(tmp_path, data_folder, "--invite", "p-toma") as serving:
        printed = serving.out.read_text()
        # It is the third step where HTTPS has two before it; here there is no other.
        first, _, rest = printed.partition("\n")
        assert first == f"The app is at http://127.0.0.1:{serving.port}. Stop it with Ctrl-C."
        assert rest.startswith("p-toma joins with this link.")
        link = next(word for word in printed.split() if "/#/join/" in word)
        assert link.startswith(f"http://127.0.0.1:{serving.port}/#/join/")
        body = json.dumps({"code": link.rpartition("/")[2]}).encode()
        status, _, joined = serving.call("POST", "/api/v1/join", {"Content-Type": "application/json"}, body)
    assert (status, json.loads(joined)["person"]) == (200, "p-toma")


def test_nobody_is_invited_who_is_in_no_event(data_folder):
    done = run("serve", "--port", free_port(), "--invite", "p-nobody", data=data_folder)
    assert done.returncode == 1
    assert "p-nobody" in done.stderr
