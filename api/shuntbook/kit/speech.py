"""What paper says in the language of who reads it: English as it stands in the code, others from a catalogue.

A catalogue (`fr.toml`) has a word for each English one. What a team wrote itself is in neither and stays as written.
"""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from functools import cache
from importlib.resources import files
from zoneinfo import ZoneInfo

from shuntbook.kit.times import DAYS, MONTHS, within_reach

LANGUAGES = ("en", "fr")
"""Names of ISO 639-1."""
ENGLISH = LANGUAGES[0]
MINUS = "\N{MINUS SIGN}"
NBSP = "\N{NO-BREAK SPACE}"
FR_DAYS = ("lun.", "mar.", "mer.", "jeu.", "ven.", "sam.", "dim.")
FR_MONTHS = (
    "janv.", "févr.", "mars", "avr.", "mai", "juin", "juil.", "août", "sept.", "oct.", "nov.", "déc.",
)  # fmt: skip
"""Abbreviated as the Unicode CLDR has them for French."""


@dataclass(frozen=True)
class Speech:
    """Says things in one language."""

    language: str = ENGLISH

    def __call__(self, english: str, **values: object) -> str:
        """Return a text in this language, `{name}` in it replaced by the values; what no catalogue has stays."""
        said = self.page_words.get(english, english)
        return said.format(**values) if values else said

    @property
    def page_words(self) -> Mapping[str, str]:
        """English → this language; nothing where it is English."""
        return _catalogue(self.language)["words"] if self.language != ENGLISH else {}

    def label(self, english: str) -> str:
        """Return a label of the package's own car map; a team's own stays as it is written."""
        return _catalogue(self.language)["car_map"].get(english, english) if self.language != ENGLISH else english

    def number(self, value: Decimal | float | str) -> str:
        """Return a number without zeros that say nothing: "5.2", "5,2"."""
        text = f"{Decimal(str(value)):f}"
        return self._pointed(text.rstrip("0").rstrip(".") if "." in text else text)

    def amount(self, value: Decimal | str) -> str:
        """Return an amount with the decimals that it has, thousands set apart: "−1,500.00", "−1 500,00"."""
        text = str(value)
        digits = f"{Decimal(text.removeprefix('-')):,f}"
        whole, point, rest = digits.partition(".")
        if self.language != ENGLISH:
            whole, point = whole.replace(",", NBSP), "," if point else ""
        return f"{MINUS if text.startswith('-') else ''}{whole}{point}{rest}"

    def percent(self, value: Decimal | float | str) -> str:
        """Return "40 %"."""
        return f"{self.number(value)}{' ' if self.language == ENGLISH else NBSP}%"

    def moment(self, time: datetime, timezone: str, year: bool = False) -> str:
        """Return a time in an IANA time zone: "Sat 13 Jun, 10:42", with the year where asked."""
        local = within_reach(time).astimezone(ZoneInfo(timezone))
        days = DAYS if self.language == ENGLISH else FR_DAYS
        return f"{days[local.weekday()]} {self._day_and_month(local)}{f' {local.year}' if year else ''}, {local:%H:%M}"

    def day(self, day: date) -> str:
        """Return "13 Jun 2026"."""
        return f"{self._day_and_month(day)} {day.year}"

    def _day_and_month(self, day: date) -> str:
        if self.language == ENGLISH:
            return f"{day.day} {MONTHS[day.month - 1]}"
        return f"{'1er' if day.day == 1 else day.day} {FR_MONTHS[day.month - 1]}"

    def _pointed(self, text: str) -> str:
        return text if self.language == ENGLISH else text.replace(".", ",")


@cache
def _catalogue(language: str) -> Mapping[str, Mapping[str, str]]:
    tables = tomllib.loads((files("shuntbook.kit") / f"{language}.toml").read_text("utf8"))
    return {name: {key: _spaced(text) for key, text in table.items()} for name, table in tables.items()}


def _spaced(text: str) -> str:
    """Return French text with its spaces where no line may break: before : ; ? ! % and », after «."""
    return re.sub(r" (?=[:;?!%»])", NBSP, text).replace("« ", f"«{NBSP}")
