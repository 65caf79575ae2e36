"""LibreOffice Calc without a window: it opens a file, calculates all of it again, and writes what it sees."""

import io
import re
import subprocess
import zipfile
from pathlib import Path

from openpyxl import Workbook, load_workbook

PATIENCE_S = 300
"""Guards against hanging alone: its first start on a busy machine takes half a minute."""
RESULT = re.compile(r"(<f>[^<]*</f>)<v>[^<]*</v>")
CSV_READ = "Text - txt - csv (StarCalc):44,34,76,1,,0,false,true"
"""How a person has a CSV file read: comma, quotes, UTF-8 (76), from line 1, numbers and days as they look."""


def seen(data: bytes, name: str, folder: Path) -> Workbook:
    """Return a file's cells as LibreOffice has them, formulas as what they come to. name: ends in .xlsx or .csv."""
    source, out = folder / name, folder / "out"
    source.write_bytes(data)
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    reading = [f"--infilter={CSV_READ}"] if name.endswith(".csv") else []
    line = ["soffice", profile, "--headless", *reading, "--convert-to", "xlsx", "--outdir", str(out), str(source)]
    done = subprocess.run(line, capture_output=True, text=True, timeout=PATIENCE_S, check=False)
    made = out / f"{source.stem}.xlsx"
    assert made.is_file(), done.stdout + done.stderr
    return load_workbook(made, data_only=True)


def without_results(data: bytes) -> bytes:
    """Return a workbook whose formulas say nothing of what they come to, so that whoever opens it has to calculate."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w") as new:
        for name in old.namelist():
            part = old.read(name)
            if name.startswith("xl/worksheets/"):
                part = RESULT.sub(r"\1", part.decode()).encode()
            new.writestr(name, part)
    return out.getvalue()
