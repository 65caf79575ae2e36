"""Lives in words, for paper and terminal; the app has its own in two languages."""

from shuntbook.lives.answer import Life, LifeHappened, LifeLimit, State

UNITS = {"events": "events", "stage_km": "stage km", "days": "days"}
STATE_SAYS: dict[State, str] = {
    "due": "due",
    "nearly": "nearly due",
    "not-known": "not known when fitted",
    "within": "within its life",
}


def limit_says(limit: LifeLimit, at_least: bool = False) -> str:
    """Return "182.5 of 200 stage km used, 230 by the end"; at_least: it may have been in the car before the log."""
    unit = UNITS[limit.of]
    if limit.used is None or limit.by_end is None:
        return f"{limit.limit:g} {unit}, used: not known"
    said = f"{'at least ' if at_least else ''}{limit.used:g} of {limit.limit:g} {unit} used"
    return said if limit.by_end == limit.used else f"{said}, {limit.by_end:g} by the end of this event"


def used_says(life: Life) -> str:
    """Return what of all limits is used."""
    return "; ".join(limit_says(limit, life.began is None) for limit in life.limits)


def began_says(life: Life) -> str:
    """Return "no. D-7, fitted 2026-05-31", or that the log does not say."""
    serial = f"no. {life.serial}, " if life.serial else ""
    if life.began is None:
        return "the log does not say when it was fitted"
    return f"{serial}{'rebuilt' if life.began.rebuilt else life.began.how} {life.began.day or ''}".rstrip()


def happened_says(happened: LifeHappened) -> str:
    """Return "bent at SS3, 2026-06-13 (Small Rally)"."""
    stage = f" at {happened.stage}" if happened.stage else ""
    return f"{happened.says}{stage}, {happened.day or ''} ({happened.event_name})"
