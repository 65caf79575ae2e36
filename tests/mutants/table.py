"""The table of mutants, read and checked: text that is found more or less than once is a fault of the table."""

import tomllib
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
TABLE = Path(__file__).with_name("table.toml")


@dataclass(frozen=True)
class Mutant:
    """A fault: in `file`, `new` in place of `old`; `tests` have to fail. `known`: why nothing sees it, or ""."""

    note: str
    file: str
    old: str
    new: str
    tests: tuple[str, ...] = ()
    known: str = ""

    def applied_to(self, text: str) -> str:
        """Return a file's text with the fault in it. Errors: ValueError unless `old` is there exactly once."""
        found = text.count(self.old)
        if found != 1:
            raise ValueError(f"{self.note}: its old text is found {found} times in {self.file}, not once")
        return text.replace(self.old, self.new)


def read_table(table: Path = TABLE) -> list[Mutant]:
    """Return the mutants in the table's order."""
    rows = tomllib.loads(table.read_text())["mutant"]
    return [Mutant(**{**row, "tests": tuple(row.get("tests", ()))}) for row in rows]
