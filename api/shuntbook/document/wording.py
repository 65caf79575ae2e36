"""Names and times in the words that a reader of paper knows: the set-up's labels, the event's own clock."""

import re
from collections.abc import Iterable
from datetime import datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from shuntbook.kit.speech import Speech
from shuntbook.kit.times import day_or_none, instant, instant_or_none, is_plausible
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
        self.say: Speech = setup.speech
        self.zone_of_time = ZoneInfo(setup.event.timezone)
        self._people = {person.person: person.name for person in setup.event.people}

    def clock(self, at: str, year: bool = False) -> str:
        """Return "Sat 13 Jun, 10:42" in the event's time zone; what is no time, or an odd one, as written."""
        return self.moment(instant(at), year) if _is_time(at) else at

    def moment(self, at: datetime, year: bool = False) -> str:
        """Return a time in the event's time zone, with the year where asked."""
        return self.say.moment(at, self.setup.event.timezone, year)

    def day(self, day: str) -> str:
        """Return "13 Jun 2026" for a day of the calendar; what is none as written."""
        known = day_or_none(day)
        return self.say.day(known) if known else day

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
            return self.say("Place not known")
        known = self.setup.car_map.zones.get(str(zone))
        return known.label if known else str(zone)

    def component(self, component: str) -> str:
        """Return a component by its label."""
        known = self.setup.car_map.components.get(component)
        return known.label if known else self.say("Not said what") if component == UNKNOWN else plain(component)

    def job(self, key: str) -> str:
        """Return "Front left: Wheel"."""
        zone, component = split_key(key)
        return self.at(self.zone(zone), self.component(component))

    def at(self, area: str, what: str) -> str:
        """Return "Front left: Wheel"."""
        return self.say("{area}: {what}", area=area, what=what)

    def is_how(self, component: str, condition: str) -> str:
        """Return "Wheel bent"."""
        part = self.component(component)
        if condition == UNKNOWN:
            return self.say("{part} to be inspected", part=part)
        return self.say("{part} {condition}", part=part, condition=self.say(condition))

    def plain(self, name: str) -> str:
        """Return a name of files as words in the paper's language."""
        return self.say(plain(name))

    def number(self, value: Decimal | float | int) -> str:
        """Return a number without the zeros that say nothing."""
        return self.say.number(value)

    def noted(self, label: str, text: str | None) -> str:
        """Return "Note: text", nothing where there is no text."""
        return self.say("{area}: {what}", area=self.say(label), what=text) if text else ""

    def part(self, part: str) -> str:
        """Return a part's description, its number where it has none."""
        known = self.setup.rates.parts.get(part)
        return known.description if known and known.description else part

    def place(self, body: Body) -> str:
        """Return "SS3, km 5.2", "SS3, note page 23", or the kind of place where it was on no stage."""
        where = "" if body.where == UNKNOWN else self.plain(body.where)
        place = body.stage or where
        km = "" if body.km is None else f"km {self.number(body.km)}"
        page = "" if body.note_page is None else self.say("note page {page}", page=body.note_page)
        return ", ".join(
            filter(None, (place, km, page, where if body.stage and body.where not in ("", "stage") else ""))
        )

    def hit(self, body: Body) -> str:
        """Return what was hit and where from: "stone, from 8 o'clock"."""
        cause = self.say(CAUSES.get(body.cause, body.cause))
        side = "" if body.direction is None else self.say("from {hour} o'clock", hour=body.direction)
        side = self.say("from below") if body.direction == "below" else side
        return ", ".join(filter(None, (cause, side)))

    def found(self, body: Body) -> str:
        """Return what a report says: "Front left: Wheel bent; brake pedal long"."""
        said = [self.is_how(f.component, f.condition) for f in body.findings]
        symptoms = [self.symptom(symptom) for symptom in body.symptoms]
        what = self.say("; ").join(filter(None, (", ".join(said), ", ".join(symptoms)))) or self.say(TO_LOOK_AT)
        return self.at(self.zone(body.zone), what) if body.zone or said else what

    def symptom(self, symptom: str) -> str:
        """Return a symptom by its label."""
        known = self.setup.car_map.symptoms.get(symptom)
        return known.label if known else plain(symptom)


def plain(name: str) -> str:
    """Return a name of files as words: hyphens are spaces."""
    return name.replace("-", " ")


def short(text: str, most: int = SHORT) -> str:
    """Return a text on one line, cut with an ellipsis where it is longer than `most` characters."""
    # A space where no line may break stays one.
    line = " ".join(re.split(r"[ \t\r\n\f\v]+", text.strip(" \t\r\n\f\v")))
    return line if len(line) <= most else f"{line[: most - 1].rstrip()}…"


def sentence(text: str) -> str:
    """Return a text that begins with a capital; the rest stays as it is."""
    return text[:1].upper() + text[1:]


def _is_time(at: str) -> bool:
    time = instant_or_none(at)
    return time is not None and is_plausible(time)
