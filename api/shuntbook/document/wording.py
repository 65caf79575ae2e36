"""Names and times in the words that a reader of paper knows: the set-up's labels, the event's own clock."""

from collections.abc import Iterable
from datetime import datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from shuntbook.kit.times import instant, instant_or_none, is_plausible, moment_in
from shuntbook.report.body import Body
from shuntbook.setup.folder import Setup
from shuntbook.setup.words import UNKNOWN, split_key

TO_LOOK_AT = "to be inspected"
CAUSES = {"car": "another car", "roll": "rolled", "recovery": "while recovered", "wear": "wear", UNKNOWN: ""}
SHORT = 90
"""Characters of a text in a cell of a one-page sheet; longer ones end in an ellipsis."""


class Wording:
    """Says things of one event in words."""

    def __init__(self, setup: Setup) -> None:
        self.setup = setup
        self.zone_of_time = ZoneInfo(setup.event.timezone)
        self._people = {person.person: person.name for person in setup.event.people}

    def clock(self, at: str) -> str:
        """Return "Sat 13 Jun, 10:42" in the event's time zone; what is no time, or an odd one, as written."""
        return self.moment(instant(at)) if _is_time(at) else at

    def moment(self, at: datetime, year: bool = False) -> str:
        """Return a time in the event's time zone, with the year where asked."""
        return moment_in(at, self.setup.event.timezone, year)

    def time(self, at: str) -> str:
        """Return "10:42" in the event's time zone."""
        return f"{instant(at).astimezone(self.zone_of_time):%H:%M}" if _is_time(at) else at

    def person(self, person: str) -> str:
        """Return a person's name."""
        return self._people.get(person, person)

    def people(self, people: Iterable[str]) -> str:
        """Return names, each once, in order of the alphabet."""
        return ", ".join(sorted({self.person(person) for person in people}))

    def zone(self, zone: str | None) -> str:
        """Return a place on the car by its label."""
        if zone in (None, "", UNKNOWN):
            return "Place not known"
        known = self.setup.car_map.zones.get(str(zone))
        return known.label if known else str(zone)

    def component(self, component: str) -> str:
        """Return a component by its label."""
        known = self.setup.car_map.components.get(component)
        return known.label if known else "Not said what" if component == UNKNOWN else plain(component)

    def job(self, key: str) -> str:
        """Return "Front left: Wheel"."""
        zone, component = split_key(key)
        return f"{self.zone(zone)}: {self.component(component)}"

    def part(self, part: str) -> str:
        """Return a part's description, its number where it has none."""
        known = self.setup.rates.parts.get(part)
        return known.description if known and known.description else part

    def place(self, body: Body) -> str:
        """Return "SS3, km 5.2", "SS3, note page 23", or the kind of place where it was on no stage."""
        where = "" if body.where == UNKNOWN else plain(body.where)
        place = body.stage or where
        km = "" if body.km is None else f"km {number(body.km)}"
        page = "" if body.note_page is None else f"note page {body.note_page}"
        return ", ".join(filter(None, (place, km, page, where if body.stage and where not in ("", "stage") else "")))

    def hit(self, body: Body) -> str:
        """Return what was hit and where from: "stone, from 8 o'clock"."""
        cause = CAUSES.get(body.cause, body.cause)
        side = "" if body.direction is None else f"from {body.direction} o'clock"
        side = "from below" if body.direction == "below" else side
        return ", ".join(filter(None, (cause, side)))

    def found(self, body: Body) -> str:
        """Return what a report says: "Front left: Wheel bent; brake pedal long"."""
        said = [f"{self.component(f.component)} {condition(f.condition)}" for f in body.findings]
        symptoms = [self.symptom(symptom) for symptom in body.symptoms]
        what = "; ".join(filter(None, (", ".join(said), ", ".join(symptoms)))) or TO_LOOK_AT
        return f"{self.zone(body.zone)}: {what}" if body.zone or said else what

    def symptom(self, symptom: str) -> str:
        """Return a symptom by its label."""
        known = self.setup.car_map.symptoms.get(symptom)
        return known.label if known else plain(symptom)


def plain(name: str) -> str:
    """Return a name of files as words: hyphens are spaces."""
    return name.replace("-", " ")


def condition(name: str) -> str:
    """Return a condition as it reads after a component."""
    return TO_LOOK_AT if name == UNKNOWN else name


def number(value: Decimal | float | int) -> str:
    """Return a number without the zeros that say nothing."""
    text = f"{Decimal(str(value)):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def short(text: str, most: int = SHORT) -> str:
    """Return a text on one line, cut with an ellipsis where it is longer than `most` characters."""
    line = " ".join(text.split())
    return line if len(line) <= most else f"{line[: most - 1].rstrip()}…"


def sentence(text: str) -> str:
    """Return a text that begins with a capital; the rest stays as it is."""
    return text[:1].upper() + text[1:]


def _is_time(at: str) -> bool:
    time = instant_or_none(at)
    return time is not None and is_plausible(time)
