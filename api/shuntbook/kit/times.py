"""Times as entries hold them (RFC 3339 with offset) as instants. Sample: 2026-05-16T10:42:07+02:00.

What people and phones wrote may name any year that can be written, and the log holds some: nothing here raises on it.
"""

import re
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from fractions import Fraction
from zoneinfo import ZoneInfo

PLAUSIBLE = range(1900, 2201)
"""Years in UTC that a fact of this work can be of: a phone that never heard the time says 1970, the oldest 1900."""
_FIRST = datetime(2, 1, 1, tzinfo=UTC)
_LAST = datetime(9998, 12, 31, tzinfo=UTC)
"""A year from either end of what Python can hold (1 to 9999), so that no zone and no offset leads past it."""


def instant(text: str) -> datetime:
    """Return the instant that a checked RFC 3339 time names, within reach; a leap second is the second before it."""
    return within_reach(written(text))


def written(text: str) -> datetime:
    """Return the instant as it is written, near the ends of the calendar, too. Errors: ValueError."""
    seconds = re.sub(r":60(?=[.Zz+-])", ":59", text) if ":60" in text else text
    return datetime.fromisoformat(seconds.upper())


def instant_or_none(text: str | None) -> datetime | None:
    """Return the instant, or None where nothing or no time with its offset is written."""
    if not text:
        return None
    try:
        time = written(text)
    except ValueError:
        return None
    return within_reach(time) if time.tzinfo else None


def day_or_none(text: str) -> date | None:
    """Return the day that is written as YYYY-MM-DD, or None for what is no day that a fact can be of."""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return None
    return day if len(text) == len("2026-05-31") and "W" not in text and day.year in PLAUSIBLE else None


def within_reach(time: datetime) -> datetime:
    """Return an instant that every time zone can show: itself, or where it is out of reach the nearest that is not."""
    if _FIRST.year < time.year < _LAST.year:
        return time  # no offset leads out of them
    return min(max(time, _FIRST), _LAST)


def is_plausible(time: datetime) -> bool:
    """Return whether an instant lies in the years that a fact can be of."""
    if PLAUSIBLE[0] < time.year < PLAUSIBLE[-1]:
        return True  # nor out of these
    return within_reach(time).astimezone(UTC).year in PLAUSIBLE


def minutes_after(time: datetime, minutes: int) -> datetime:
    """Return the instant so many minutes later, within reach."""
    try:
        return within_reach(time + timedelta(minutes=minutes))
    except OverflowError:
        return _LAST if minutes > 0 else _FIRST


def minutes_says(minutes: Fraction | Decimal | float) -> str:
    """Return how long something takes as people say it, to the second: "45 s", "2 min", "34 min 20 s"."""
    whole, seconds = divmod(int(Fraction(str(minutes)) * 60 + Fraction(1, 2)), 60)
    said = (f"{whole} min" if whole else "", f"{seconds} s" if seconds or not whole else "")
    return " ".join(filter(None, said))


DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def moment_in(time: datetime, timezone: str, year: bool = False) -> str:
    """Return a time as paper has it, in an IANA time zone: "Sat 13 Jun, 10:42", with the year where asked."""
    local = within_reach(time).astimezone(ZoneInfo(timezone))
    day = f"{DAYS[local.weekday()]} {local.day} {MONTHS[local.month - 1]}{f' {local.year}' if year else ''}"
    return f"{day}, {local:%H:%M}"


def day_says(day: date) -> str:
    """Return a day as paper has it: "13 Jun 2026"."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def day_in(time: datetime, timezone: str) -> date:
    """Return the day that an instant falls on in an IANA time zone."""
    return within_reach(time).astimezone(ZoneInfo(timezone)).date()
