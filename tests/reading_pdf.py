"""Reads PDF files back with pypdf: text, paper, pictures, and what a tagged file with embedded fonts must have."""

import io
import re
from collections.abc import Iterator
from typing import Any, cast

from pypdf import PdfReader
from pypdf.generic import ArrayObject, DictionaryObject

PAPER_PT = {"a4": (595.28, 841.89), "letter": (612.0, 792.0)}
"""In points of 1/72 inch, from memory: A4 is 210 × 297 mm (ISO 216), Letter 8.5 × 11 inch (ANSI/ASME Y14.1)."""


class Pdf:
    """One file read back."""

    def __init__(self, data: bytes) -> None:
        self.reader = PdfReader(io.BytesIO(data))
        self.root: Any = self.reader.trailer["/Root"]

    @property
    def text(self) -> str:
        """All text, runs of white space as one blank."""
        return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in self.reader.pages))

    def on_page(self, number: int) -> str:
        """The text of one page, from 1."""
        return re.sub(r"\s+", " ", self.reader.pages[number - 1].extract_text())

    @property
    def pages(self) -> int:
        """How many pages there are."""
        return len(self.reader.pages)

    @property
    def images(self) -> int:
        """How many pictures the pages show."""
        return sum(len(page.images) for page in self.reader.pages)

    def papers(self) -> set[str]:
        """The papers that the pages are on, by name; a size that is neither stands as it is."""
        found = set()
        for page in self.reader.pages:
            size = (float(page.mediabox.width), float(page.mediabox.height))
            near = [name for name, (w, h) in PAPER_PT.items() if abs(size[0] - w) < 1 and abs(size[1] - h) < 1]
            found.add(near[0] if near else str(size))
        return found

    def faults(self) -> list[str]:
        """What a tagged file lacks (ISO 32000-1, 14.7 and 14.8; ISO 14289-1), and fonts that are not embedded."""
        found = []
        if not (self.root.get("/MarkInfo") or {}).get("/Marked"):
            found.append("not marked as tagged")
        if "/StructTreeRoot" not in self.root:
            found.append("no structure tree")
        if not str(self.root.get("/Lang", "")).startswith("en"):
            found.append("no language")
        if not (self.reader.metadata and self.reader.metadata.title):
            found.append("no title")
        fonts = list(self.fonts())
        found += [f"font {name} is not embedded" for name, embedded in fonts if not embedded]
        return found if fonts else [*found, "no font at all"]

    def fonts(self) -> Iterator[tuple[str, bool]]:
        """The fonts of all pages: name, and whether the file brings its outlines (FontFile, FontFile2, FontFile3)."""
        for page in self.reader.pages:
            resources = cast(DictionaryObject, page["/Resources"])
            for named in (resources.get("/Font") or {}).values():
                font = inner = cast(DictionaryObject, named.get_object())
                if "/DescendantFonts" in font:
                    inner = cast(DictionaryObject, cast(ArrayObject, font["/DescendantFonts"])[0].get_object())
                descriptor = inner.get("/FontDescriptor", {})
                yield str(font["/BaseFont"]), any(f"/FontFile{n}" in descriptor for n in ("", "2", "3"))

    def alternatives(self) -> list[str]:
        """The text alternatives of the pictures, from the structure tree."""
        return [str(node["/Alt"]) for node in self._nodes(self.root["/StructTreeRoot"]) if "/Alt" in node]

    def kinds(self) -> set[str]:
        """The kinds of structure elements: /H1, /Table, /TH, /Figure …"""
        return {str(node["/S"]) for node in self._nodes(self.root["/StructTreeRoot"]) if "/S" in node}

    def _nodes(self, node: Any) -> Iterator[Any]:
        node = node.get_object()
        if not isinstance(node, dict):
            return
        yield node
        kids = node.get("/K", [])
        for kid in kids if isinstance(kids, list) else [kids]:
            if not isinstance(kid, int):
                yield from self._nodes(kid)
