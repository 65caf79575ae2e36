"""Where the data lives: `--data`, else SHUNTBOOK_DATA, else the platform's user data folder."""

import os
from pathlib import Path

import platformdirs

VARIABLE = "SHUNTBOOK_DATA"


def data_folder(given: Path | None = None) -> Path:
    """Return the data folder, made by whoever opens the store in it."""
    if given is not None:
        return given
    named = os.environ.get(VARIABLE)
    return Path(named) if named else Path(platformdirs.user_data_dir("shuntbook", appauthor=False))
