"""Collects the faults of input files, so that one reading names all of them."""

from shuntbook.kit.errors import BadSetup, Fault


class Faults:
    """A growing list of faults; `raise_if_any` at the end of a reading."""

    def __init__(self) -> None:
        self.found: list[Fault] = []

    def add(self, file: str, row: int, column: str, what: str, index: int = -1) -> None:
        """Note one fault (see `Fault` for the fields)."""
        self.found.append(Fault(file, row, column, what, index))

    def raise_if_any(self) -> None:
        """Raise BadSetup with all faults noted so far, if there are any."""
        if self.found:
            raise BadSetup(self.found)
