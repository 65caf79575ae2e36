"""What being late or early at a time control costs, by an event's own figures.

Clock minutes: both times are cut to the minute, and the whole due minute is on time (from memory). Seconds for
each minute late or early, and the limits: Motorsport UK, National Competition Rules 2026, Ch. 13 App. 8
1.3(g)-(h); 15 minutes at one control: TOSFED, National Rally Rules 2022, Art. 29.2; 30 in all: FIA, from memory.

Sample, 10 s late and 60 s early for each minute, due 10:00: 09:59:59 → 60 s early; 10:00:59 → 0; 10:03 → 30 s late.
"""

from collections.abc import Iterable
from datetime import UTC, datetime, timedelta

from shuntbook.kit.times import within_reach
from shuntbook.setup.event import Regulations

MINUTE = timedelta(minutes=1)


def late_minutes(due: datetime, actual: datetime) -> int:
    """Return how many clock minutes `actual` is after `due`, below 0 where it is before.

    Errors: ValueError for a time without its offset, since two phones need not be in one zone.
    """
    return (_minute(actual) - _minute(due)) // MINUTE


def late_penalty_s(due: datetime, actual: datetime, regulations: Regulations) -> int:
    """Return the seconds that being late costs; 0 on time, early, or where the event penalises no lateness."""
    return max(0, late_minutes(due, actual)) * regulations.late_penalty_s_per_minute


def early_penalty_s(due: datetime, actual: datetime, regulations: Regulations) -> int:
    """Return the seconds that being early costs; 0 on time or late."""
    return max(0, -late_minutes(due, actual)) * regulations.early_penalty_s_per_minute


def out(lateness: Iterable[int], regulations: Regulations) -> bool:
    """Return whether minutes late at each control (early ones below 0) are more than the event allows.

    More than the limit at one control, or more than the limit of all controls together; early makes up for nothing.
    """
    late = [max(0, minutes) for minutes in lateness]
    return max(late, default=0) > regulations.late_limit_minutes or sum(late) > regulations.total_late_limit_minutes


def _minute(time: datetime) -> datetime:
    if time.tzinfo is None:
        raise ValueError(f"{time} has no offset; write one such as 2026-05-16T13:02:00+02:00")
    return within_reach(time).astimezone(UTC).replace(second=0, microsecond=0)
