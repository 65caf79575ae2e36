"""What pdfua, an independent checker, finds in a PDF: it judges 16 of the 106 rules of PDF/UA-1 (ISO 14289-1)."""

from pathlib import Path
from tempfile import TemporaryDirectory

from pdfua import validate

CRASHES = frozenset({"UA-14-001"})
"""pdfua 0.1.3 falls over this rule (headings) on files of Typst; ours in `reading_pdf` stand in its place."""


def pdfua_finds(data: bytes) -> list[str]:
    """Return each finding, and each rule that was not judged though it should have been."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "paper.pdf"
        path.write_bytes(data)
        report = validate(str(path))
    skipped = [f"{one.rule_id} was not judged" for one in report.skipped if one.rule_id not in CRASHES]
    return [str(one) for one in report.findings] + skipped
