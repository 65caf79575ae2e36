"""Fixtures of the attacks: the app and the phones of the integration tests, and an event that demands signatures."""

from pathlib import Path

import pytest
from tests.integration.conftest import (
    app,
    client,
    join,
    made_app,
    pages,
    pen,
    set_up_folder,
    signed_folder,
    signed_store,
    signing,
)

from shuntbook.store.database import Store

__all__ = [
    "app",
    "client",
    "join",
    "made_app",
    "pages",
    "pen",
    "sample_store",
    "set_up_folder",
    "signed_folder",
    "signed_store",
    "signing",
]


@pytest.fixture
def sample_store(signed_store: Store) -> Store:
    """The app of these tests holds the event with signatures demanded."""
    return signed_store


@pytest.fixture
def fresh(tmp_path: Path) -> Store:
    """The empty disk of a server that lost everything."""
    return Store(tmp_path / "fresh")
