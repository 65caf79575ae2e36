"""What the van was loaded with: `van.csv`, beside the event."""

from shuntbook.setup.csv_file import read_csv
from shuntbook.setup.faults import Faults
from shuntbook.setup.lines import Rows, rows_of
from shuntbook.setup.rate_keys import VAN

FILE = VAN.file


def read_van(data: bytes | None, faults: Faults) -> Rows:
    """Return the rows of van.csv, none where there is no file: how many of each part the van was loaded with."""
    return rows_of({VAN.table: [] if data is None else read_csv(FILE, data, VAN, faults)})
