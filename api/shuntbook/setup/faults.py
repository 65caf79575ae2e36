"""Collects the faults of input files, so that one reading names all of them."""

from shuntbook.kit.errors import BadSetup, Fault

MOST = 1000
"""So many faults are named, and so many warnings: more than anybody reads at once, and few enough to be told."""


class Faults:
    """Growing lists of faults and warnings; `raise_if_any` at the end of a reading.

    stored: what is read was taken once. A fault that release 0.1.0 did not find in it is a warning then, so that new
    bounds never close an event that is under way.
    """

    def __init__(self, stored: bool = False) -> None:
        self.found: list[Fault] = []
        self.warnings: list[Fault] = []
        self.stored = stored

    def add(self, file: str, row: int, column: str, what: str, index: int = -1, new: bool = False) -> None:
        """Note one fault (see `Fault` for the fields). new: release 0.1.0 took what is at fault.

        Errors: BadSetup once there are `MOST`, which ends the reading.
        """
        if new and self.stored:
            self.warn(file, row, column, what, index)
            return
        self.found.append(Fault(file, row, column, what, index))
        if len(self.found) == MOST:
            self.found.append(Fault(file, row, "", f"more than {MOST} faults; put these right and look again"))
            self.raise_if_any()

    def warn(self, file: str, row: int, column: str, what: str, index: int = -1) -> None:
        """Note what is taken and deserves to be told, as long as somebody may read it."""
        if len(self.warnings) < MOST:
            self.warnings.append(Fault(file, row, column, what, index))

    def raise_if_any(self) -> None:
        """Raise BadSetup with all faults noted so far, if there are any."""
        if self.found:
            raise BadSetup(self.found)
