"""The declaration of property hit: one page that the crew signs, with room for the official."""

from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.document.heading import heading
from shuntbook.document.incidents import incident_json, standing_incidents
from shuntbook.document.restart import crew
from shuntbook.document.wording import Wording, short

MOST = 6
MOST_PHOTOS = 4
TEXTS = ("property_hit", "others", "injured", "reported_to")


def declaration(file: CarFile, paper: str) -> Json:
    """Return the data of the declaration. Errors: NotFound for a paper that there is none of."""
    wording = Wording(file.setup)
    meant = [
        incident_json(file, entry, data, wording)
        for entry, data in standing_incidents(file)
        if data.property_hit or data.others_involved or data.others or data.injured
    ]
    shots = [shot for incident in meant for shot in incident["shots"]]
    return {
        **heading(file, DOCUMENTS["declaration"], paper),
        "grey": True,
        "crew": crew(file, wording),
        "incidents": [_brief(incident, wording) for incident in meant[-MOST:]],
        "more": max(0, len(meant) - MOST),
        "shots": shots[:MOST_PHOTOS],
        "more_shots": max(0, len(shots) - MOST_PHOTOS),
    }


def _brief(incident: Json, wording: Wording) -> Json:
    texts = {name: short(incident[name], 220) for name in TEXTS}
    where = ", ".join(incident["places"]) or wording.say("place not in the log")
    return {**texts, "title": short(incident["title"], 80), "where": short(where, 90), "when": incident["when"]}
