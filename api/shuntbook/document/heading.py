"""What stands on every document: whose it is, what it was made of, and what it is not."""

from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import Document, paper_named
from shuntbook.document.wording import Wording

NOT_OURS = (
    "This is the team's own log: it says what people of the team recorded, no more."
    " Event officials, local rules and licensed practice decide."
)
CHECKED = "“Checked by” means: by a person of the team."


def heading(file: CarFile, document: Document, paper: str) -> Json:
    """Return the head of a document of one car. Errors: NotFound for a paper that there is none of."""
    event = file.setup.event
    wording = Wording(file.setup)
    return {
        "template": document.name,
        "paper": paper_named(paper),
        "title": document.title,
        "event": event.name,
        "car": file.car,
        "label": event.car_labels.get(file.car, ""),
        "made": made_of(len(file.entries), wording.moment(file.newest, year=True) if file.entries else ""),
        "clock": event.timezone,
        "notice": NOT_OURS,
        "checked": CHECKED,
    }


def made_of(entries: int, newest: str) -> str:
    """Return what a document was made of: how many entries, the newest written when."""
    return f"{entries} entries, the newest of {newest}" if entries else "no entries yet"
