"""Writes accepted minutes into operations.csv: the cells of those rows change, every other byte stays."""

import csv
import io
from collections.abc import Mapping

from shuntbook.kit.money import exact_text
from shuntbook.season.timed import OperationKey
from shuntbook.setup.rates import ThreePoint

FILE = "operations.csv"


def with_minutes(data: bytes, changed: Mapping[OperationKey, ThreePoint]) -> bytes:
    """Return the bytes of a good operations.csv with other minutes in some rows.

    A row that changes is written again with its own line ending; a BOM, blank lines and other rows stay as they are.
    """
    lines = io.StringIO(data.decode("utf-8"), newline="").readlines()
    reader = csv.reader(lines, strict=True)
    header = [cell.strip().removeprefix("\ufeff") for cell in next(reader)]
    written, place = lines[: reader.line_num], reader.line_num
    for cells in reader:
        raw = lines[place : reader.line_num]
        place = reader.line_num
        row = dict(zip(header, (cell.strip() for cell in cells), strict=False))
        minutes = changed.get((row.get("component", ""), row.get("condition", ""), row.get("zone", "")))
        written += [_written(header, cells, minutes, raw[-1])] if minutes else raw
    return "".join(written).encode("utf-8")


def _written(header: list[str], cells: list[str], minutes: ThreePoint, raw: str) -> str:
    values = {"minutes_best": minutes.best, "minutes_likely": minutes.likely, "minutes_worst": minutes.worst}
    fresh = list(cells)
    for column, value in values.items():
        fresh[header.index(column)] = exact_text(value)
    ending = raw[len(raw.rstrip("\r\n")) :]
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator=ending).writerow(fresh)
    return out.getvalue()
