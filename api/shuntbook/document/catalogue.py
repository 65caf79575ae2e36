"""Which documents there are, and on which paper."""

from dataclasses import dataclass

from shuntbook.kit.errors import NotFound

PAPERS = {"a4": "a4", "letter": "us-letter"}
"""Paper by the name that people give it → Typst's. A4: ISO 216; Letter: ANSI/ASME Y14.1."""


@dataclass(frozen=True)
class Document:
    """A document of one car; `wire.sight.PAPERS` says who may have it."""

    name: str
    title: str


DOCUMENTS = {
    document.name: document
    for document in (
        Document("statement", "Statement"),
        Document("job-sheet", "Job sheet"),
        Document("restart-sheet", "Restart sheet"),
        Document("hand-over", "Hand-over of the car"),
        Document("declaration", "Declaration of property hit"),
        Document("record", "Damage and inspection record"),
        Document("parts-order", "Parts order"),
    )
}


def document_named(name: str) -> Document:
    """Return a document by its name. Errors: NotFound that says which there are."""
    if name not in DOCUMENTS:
        raise NotFound(f"there is no document {name!r}; there are {', '.join(DOCUMENTS)}")
    return DOCUMENTS[name]


def paper_named(name: str) -> str:
    """Return Typst's name of a paper. Errors: NotFound that says which there are."""
    if name not in PAPERS:
        raise NotFound(f"there is no paper {name!r}; documents are made for {' and '.join(PAPERS)}")
    return PAPERS[name]
