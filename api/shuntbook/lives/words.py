"""Lives in words, for paper and terminal; the app has its own in two languages."""

from shuntbook.kit.speech import Speech
from shuntbook.kit.times import day_or_none
from shuntbook.lives.answer import Life, LifeHappened, LifeLimit, State

ENGLISH = Speech()

UNITS = {"events": "events", "stage_km": "stage km", "days": "days"}
STATE_SAYS: dict[State, str] = {
    "due": "due",
    "nearly": "nearly due",
    "not-known": "not known when fitted",
    "within": "within its life",
}


def limit_says(limit: LifeLimit, at_least: bool = False, say: Speech = ENGLISH) -> str:
    """Return "182.5 of 200 stage km used, 230 by the end"; at_least: it may have been in the car before the log."""
    unit, most = say(UNITS[limit.of]), say.number(limit.limit)
    if limit.used is None or limit.by_end is None:
        return say("{most} {unit}, used: not known", most=most, unit=unit)
    pattern = "at least {used} of {most} {unit} used" if at_least else "{used} of {most} {unit} used"
    said = say(pattern, used=say.number(limit.used), most=most, unit=unit)
    by_end = say(", {used} by the end of this event", used=say.number(limit.by_end))
    return said if limit.by_end == limit.used else said + by_end


def used_says(life: Life, say: Speech = ENGLISH) -> str:
    """Return what of all limits is used."""
    return say("; ").join(limit_says(limit, life.began is None, say) for limit in life.limits)


def began_says(life: Life, say: Speech = ENGLISH) -> str:
    """Return "no. D-7, fitted 31 May 2026", or that the log does not say."""
    serial = say("no. {serial}, ", serial=life.serial) if life.serial else ""
    if life.began is None:
        return say("the log does not say when it was fitted")
    how = say("rebuilt" if life.began.rebuilt else life.began.how)
    return f"{serial}{how} {_day(life.began.day, say)}".rstrip()


def happened_says(happened: LifeHappened, say: Speech = ENGLISH) -> str:
    """Return "bent at SS3, 13 Jun 2026 (Small Rally)"."""
    stage = f" at {happened.stage}" if happened.stage else ""
    return f"{happened.says}{stage}, {_day(happened.day, say)} ({happened.event_name})"


def _day(day: str | None, say: Speech) -> str:
    known = day_or_none(day or "")
    return say.day(known) if known else day or ""
