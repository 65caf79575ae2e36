"""Times as entries hold them (RFC 3339 with offset) as instants. Sample: 2026-05-16T10:42:07+02:00."""

import re
from datetime import date, datetime
from zoneinfo import ZoneInfo


def instant(text: str) -> datetime:
    """Return the instant that a checked RFC 3339 time names; a leap second is the second before it."""
    return datetime.fromisoformat(re.sub(r":60(?=[.Zz+-])", ":59", text).upper())


def instant_or_none(text: str | None) -> datetime | None:
    """Return the instant, or None where nothing or no time with its offset is written."""
    try:
        time = instant(text or "")
    except ValueError:
        return None
    return time if time.tzinfo else None


def day_in(time: datetime, timezone: str) -> date:
    """Return the day that an instant falls on in an IANA time zone."""
    return time.astimezone(ZoneInfo(timezone)).date()
