"""sqlite-utils, without the libraries for tables of data that it looks for: the store never hands it one.

The solver brings numpy and pandas along. Importing them takes a second, which each command would pay.
"""

import sys
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def _hidden(*names: str) -> Iterator[None]:
    """Have packages not be found, unless somebody has imported them already."""
    absent = [name for name in names if name not in sys.modules]
    sys.modules.update(dict.fromkeys(absent))  # type: ignore[arg-type]  # None: Python's own word for "not to be found"
    try:
        yield
    finally:
        for name in absent:
            del sys.modules[name]


with _hidden("numpy", "pandas"):
    from sqlite_utils import Database
    from sqlite_utils.migrations import Migrations

__all__ = ["Database", "Migrations"]
