"""Where the data lives: `--data`, else SHUNTBOOK_DATA, else the platform's user data folder; the CA beside it.

And where the server is found if nobody says otherwise.
"""

import os
from pathlib import Path

import platformdirs

VARIABLE = "SHUNTBOOK_DATA"
CA_VARIABLE = "SHUNTBOOK_CA"
PAUSE_VARIABLE = "SHUNTBOOK_BODY_PAUSE"
"""How `serve --body-pause` reaches the process that serves."""
HOST = "127.0.0.1"
PORT = 8017
URL = f"http://{HOST}:{PORT}"


def data_folder(given: Path | None = None) -> Path:
    """Return the data folder, made by whoever opens the store in it."""
    if given is not None:
        return given
    named = os.environ.get(VARIABLE)
    return Path(named) if named else Path(platformdirs.user_data_dir("shuntbook", appauthor=False))


def ca_folder(given: Path | None = None) -> Path:
    """Return the folder of the CA: `--ca`, else SHUNTBOOK_CA, else beside the user data folder.

    It is no part of the data: whoever starts with an empty data folder must still be the one that phones trust.
    """
    if given is not None:
        return given
    named = os.environ.get(CA_VARIABLE)
    return Path(named) if named else Path(platformdirs.user_data_dir("shuntbook-ca", appauthor=False))
