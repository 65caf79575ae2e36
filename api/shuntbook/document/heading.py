"""What stands on every document: whose it is, what it was made of, and what it is not."""

from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import Document, paper_named
from shuntbook.document.wording import Wording
from shuntbook.kit.speech import Speech

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
        **spoken(wording.say),
        "title": wording.say(document.title),
        "event": event.name,
        "car": file.car,
        "label": event.car_labels.get(file.car, ""),
        "made": made_of(len(file.entries), wording.moment(file.newest, year=True) if file.entries else "", wording.say),
        "clock": event.timezone,
        "notice": wording.say(NOT_OURS),
        "checked": wording.say(CHECKED),
    }


def spoken(say: Speech) -> Json:
    """Return what a template needs to speak the paper's language: its name, and its words for English ones."""
    return {"language": say.language, "words": dict(say.page_words)}


def made_of(entries: int, newest: str, say: Speech) -> str:
    """Return what a document was made of: how many entries, the newest written when."""
    if entries == 0:
        return say("no entries yet")
    return say(
        "1 entry, of {newest}" if entries == 1 else "{n} entries, the newest of {newest}", n=entries, newest=newest
    )
