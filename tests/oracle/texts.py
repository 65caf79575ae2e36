"""Writes rows and tables as the text of CSV and TOML files."""

import csv
import io
import json
from pathlib import Path
from typing import Any


def toml_table(header: str, values: dict[str, Any]) -> str:
    """One TOML table; text, whole numbers and lists of text are written as JSON writes them."""
    lines = [f"{name} = {json.dumps(value, ensure_ascii=False)}" for name, value in values.items()]
    return "\n".join([header, *lines, ""])


def csv_text(rows: list[Any]) -> str:
    """Rows of dicts as CSV with a header."""
    text = io.StringIO()
    writer = csv.DictWriter(text, fieldnames=list(rows[0]))
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def write_text(path: Path, text: str) -> None:
    """Write UTF-8 text, line ends as they are."""
    path.write_bytes(text.encode("utf-8"))
