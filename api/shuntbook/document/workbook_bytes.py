"""Writes a workbook as bytes that are the same for the same workbook, with what its formulas come to.

openpyxl writes formulas without results, and stamps files with the clock. Phones show the results that the file holds
and calculate nothing, so they are put in here: <c r="B2"><f>SUM(B1:B1)</f><v>1.00</v></c> (ISO/IEC 29500-1, 18.3.1.4).
"""

import io
import re
import zipfile
from collections.abc import Mapping
from datetime import UTC, datetime
from decimal import Decimal

from openpyxl import Workbook

Known = dict[tuple[str, str], Decimal]
"""(sheet, cell) → what its formula comes to."""
FORMULA = re.compile(r'(<c r="([A-Z]+[0-9]+)"[^>]*><f>[^<]*</f>)(?:<v\s*/>|<v></v>)')
MODIFIED = re.compile(r"(<dcterms:modified[^>]*>)[^<]*")


def workbook_bytes(book: Workbook, known: Mapping[tuple[str, str], Decimal], at: datetime) -> bytes:
    """Return a workbook as XLSX of date `at`; the application that opens it calculates its formulas again."""
    written = io.BytesIO()
    stamp = at.astimezone(UTC).replace(tzinfo=None, microsecond=0)
    book.properties.created = stamp
    book.properties.creator = "Shuntbook"
    book.calculation.fullCalcOnLoad = True
    book.save(written)
    titles = {f"xl/worksheets/sheet{n}.xml": sheet.title for n, sheet in enumerate(book.worksheets, 1)}
    out = io.BytesIO()
    with zipfile.ZipFile(written) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            data = old.read(name)
            if name in titles:
                data = _with_results(data.decode(), titles[name], known).encode()
            if name == "docProps/core.xml":
                data = MODIFIED.sub(rf"\g<1>{stamp.isoformat()}Z", data.decode()).encode()
            new.writestr(_entry(name), data)
    return out.getvalue()


def _with_results(xml: str, title: str, known: Mapping[tuple[str, str], Decimal]) -> str:
    def result(found: re.Match[str]) -> str:
        return f"{found[1]}<v>{known[title, found[2]]}</v>"

    return FORMULA.sub(result, xml)


def _entry(name: str) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
    entry.compress_type = zipfile.ZIP_DEFLATED
    return entry
