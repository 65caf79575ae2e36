"""Fixtures of the integration tests: a real store in a folder of its own, the app over it, phones that joined."""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from making import Pen
from phone import EVENT, NOW, PEOPLE, Phone
from sample_event import event_files, event_folder
from shuntbook.app import create_app, put_over
from shuntbook.flow import clock, joining, uploads
from shuntbook.flow.load import load
from shuntbook.store.database import Store
from signing_phone import Signing


@pytest.fixture
def store(tmp_path: Path) -> Store:
    """An empty store."""
    return Store(tmp_path / "empty")


@pytest.fixture(scope="session")
def loaded_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with the sample event loaded, signatures not demanded; tests get copies of it."""
    folder = tmp_path_factory.mktemp("loaded") / "data"
    first = Store(folder)
    load(first, event_folder(folder.with_name("event"), "off"), NOW)
    first.db.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return folder


@pytest.fixture
def data_folder(loaded_folder: Path, tmp_path: Path) -> Path:
    """A data folder of the test's own with the sample event loaded."""
    return Path(shutil.copytree(loaded_folder, tmp_path / "data"))


@pytest.fixture
def sample_store(data_folder: Path) -> Store:
    """A store with the sample event loaded."""
    return Store(data_folder)


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A built app of one page, one hashed asset and a service worker; beside it what is no page. Only read."""
    beside = tmp_path_factory.mktemp("built")
    folder = beside / "pages"
    (folder / "assets").mkdir(parents=True)
    (folder / "index.html").write_text("<!doctype html><title>Shuntbook</title>")
    (folder / "assets" / "main-0a1b2c.js").write_text("export {};")
    (folder / "sw.js").write_text("self;")
    (beside / "secret.txt").write_text("not a page")
    return folder


@pytest.fixture(scope="session")
def made_app(pages: Path, tmp_path_factory: pytest.TempPathFactory) -> Flask:
    """The app, made once since that takes a tenth of a second: each test has it put over a store of its own."""
    return create_app(Store(tmp_path_factory.mktemp("nobodys")), pages)


@pytest.fixture
def app(made_app: Flask, sample_store: Store) -> Iterator[Flask]:
    """The app over the sample event."""
    put_over(made_app, sample_store)
    yield made_app
    made_app.extensions["shuntbook.planner"].stop()


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A test client of the app over the sample event."""
    return app.test_client()


@pytest.fixture
def join(client: FlaskClient, sample_store: Store) -> Callable[[str], dict[str, str]]:
    """Returns the headers of a phone that just joined as a role."""

    def joined(role: str) -> dict[str, str]:
        code = joining.invite(sample_store, PEOPLE[role], clock.now())
        answer = client.post("/api/v1/join", json={"code": code})
        return {"Authorization": f"Bearer {answer.get_json()['token']}"}

    return joined


@pytest.fixture
def phone(client: FlaskClient, join: Callable[[str], dict[str, str]]) -> Callable[..., Phone]:
    """Makes a phone that joined as a role."""

    def joined(role: str = "co-driver") -> Phone:
        return Phone(client, join(role))

    return joined


@pytest.fixture
def signed_folder(tmp_path: Path) -> Path:
    """The sample event's folder, signatures demanded."""
    return event_folder(tmp_path / "signed-folder", "on")


@pytest.fixture(scope="session")
def set_up_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with the sample event's set-up, signatures demanded, and no entry; tests get copies of it."""
    folder = tmp_path_factory.mktemp("set-up") / "data"
    first = Store(folder)
    uploads.put_setup(first, EVENT, event_files("on"), NOW)
    first.db.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return folder


@pytest.fixture
def signed_store(set_up_folder: Path, tmp_path: Path) -> Store:
    """A store with the sample event's set-up, signatures demanded, and no entry."""
    return Store(Path(shutil.copytree(set_up_folder, tmp_path / "signed")))


@pytest.fixture
def signing(client: FlaskClient, sample_store: Store) -> Callable[..., Signing]:
    """Makes a phone that signs, joined as a role."""

    def joined(role: str = "co-driver", key: bool = True, pin: bool = False) -> Signing:
        return Signing(client, sample_store, PEOPLE[role], key, pin)

    return joined


@pytest.fixture
def pen() -> Pen:
    """A pen that writes entries of the sample event, car 41."""
    return Pen(EVENT, start=10_000)
