"""What the van was loaded with: `van.csv`, beside the event."""

from decimal import Decimal

from shuntbook.setup.csv_file import read_csv
from shuntbook.setup.faults import Faults

FILE = "van.csv"


def read_van(data: bytes, faults: Faults) -> dict[str, Decimal]:
    """Return how many of each part the van was loaded with."""
    van: dict[str, Decimal] = {}
    for row in read_csv(FILE, data, ("part", "loaded"), (), faults):
        part = row.name("part")
        if part in van:
            row.fault("part", f"{part!r} stands twice; keep one row")
        van[part] = row.number("loaded")
    return van
