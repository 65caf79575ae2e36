"""The view of the store for whoever reads what follows from the log."""

from collections.abc import Iterator
from contextlib import contextmanager

from shuntbook.store import log, projections
from shuntbook.store.collecting import collecting_later
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.refresh import bring_forward


@contextmanager
def up_to_date(store: Store) -> Iterator[Database]:
    """Give one unchanging view of the store, in which reports and jobs are those of all entries that it holds.

    Errors: StoreUnavailable where they are not yet and nothing can be written.
    """
    while True:
        with store.read() as db:
            if projections.upto(db) >= log.last_cursor(db):
                yield db
                return
        with collecting_later(), store.write() as db:
            bring_forward(db)
