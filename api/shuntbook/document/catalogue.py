"""Which documents there are, on which paper, and who may have them."""

from dataclasses import dataclass

from shuntbook.kit.errors import NotFound

PAPERS = {"a4": "a4", "letter": "us-letter"}
"""Paper by the name that people give it → Typst's. A4: ISO 216; Letter: ANSI/ASME Y14.1."""


@dataclass(frozen=True)
class Document:
    """A document of one car. `managers`: for a manager alone; `crew`: those who sit in the car may have it, too."""

    name: str
    title: str
    managers: bool = False
    crew: bool = False


DOCUMENTS = {
    document.name: document
    for document in (
        Document("statement", "Statement", managers=True),
        Document("job-sheet", "Job sheet"),
        Document("restart-sheet", "Restart sheet"),
        Document("hand-over", "Hand-over of the car", crew=True),
        Document("declaration", "Declaration of property hit", crew=True),
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
