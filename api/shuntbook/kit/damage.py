"""How a damaged database is known, and what is said of it: by the command that met it, and to the phone that asked."""

import sys


def is_damage(error: BaseException) -> bool:
    """Whether a database is damaged; the kinds below it, such as a wrong statement, are mistakes of the program."""
    # Which commands that open no store have not loaded, and don't wait for.
    sqlite = sys.modules.get("sqlite3")
    return sqlite is not None and type(error) is sqlite.DatabaseError


def told(error: BaseException) -> str:
    """Return what is said of it."""
    return (
        f"The data folder's database is damaged: {error}. `shuntbook check` says what of it; bring a copy back with"
        " `shuntbook restore`, and phones send what it does not hold."
    )
