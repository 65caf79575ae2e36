"""How much of its life a part has used: the spans that it was in a car, and what the car ran in them.

Sample: fitted before the second event of three (30, 40, 50 stage km, each run whole), asked while the third has two of
its stages (20 km) behind it: 1 event and 40 + 20 = 60 km used, 2 events and 90 km by the third one's end.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from shuntbook.lives.calendar import CarRun
from shuntbook.lives.fitted import Fitted

Runs = Sequence[Mapping[str, CarRun]]
"""The events in order, the one that is asked about last: each car's run."""


@dataclass(frozen=True)
class Span:
    """A part in a car, from one fitting at a place to the next there; `begins` None: from before the first event."""

    car: str
    key: str
    begins: Fitted | None
    ends: Fitted | None


@dataclass(frozen=True)
class Used:
    """Events and stage km so far and by the end of this event."""

    events: int
    events_by_end: int
    km: Fraction
    km_by_end: Fraction


def span_now(fitted: Sequence[Fitted], car: str, key: str) -> Span:
    """Return the span of what is in the car now. `fitted`: all fittings in order."""
    here = [one for one in fitted if (one.car, one.key) == (car, key)]
    return Span(car, key, here[-1] if here else None, None)


def spans_of(fitted: Sequence[Fitted], now: Span) -> list[Span]:
    """Return the spans of one life, the present one last: those of its serial since it was new or rebuilt."""
    if now.begins is None or now.begins.serial == "" or now.begins.rebuilt:
        return [now]
    component = now.key.partition("/")[2]
    found: list[Span] = []
    for one in fitted:
        same = one.serial == now.begins.serial and one.key.partition("/")[2] == component
        if same and one.place <= now.begins.place:
            found = ([] if one.rebuilt else found) + [Span(one.car, one.key, one, _next(fitted, one))]
    return found


def used(spans: Sequence[Span], runs: Runs) -> Used:
    """Return what the cars ran in these spans."""
    parts = [_in_event(span, place, runs) for place in range(len(runs)) for span in spans]
    by_event: dict[int, tuple[bool, bool]] = {}
    for place, ran, will, *_ in parts:
        before = by_event.get(place, (False, False))
        by_event[place] = (before[0] or ran, before[1] or will)
    last = len(runs) - 1
    over = sum(ran for place, (ran, _) in by_event.items() if place < last)
    return Used(
        over,
        over + by_event.get(last, (False, False))[1],
        sum((km for *_, km, _ in parts), Fraction(0)),
        sum((km for *_, km in parts), Fraction(0)),
    )


def age_days(spans: Sequence[Span], upto: date | None) -> int | None:
    """Return how many days old a life is on a day; on a shelf it ages, too. None where its first day is not known."""
    begins = spans[0].begins
    return None if begins is None or begins.day is None or upto is None else max(0, (upto - begins.day).days)


def _next(fitted: Sequence[Fitted], one: Fitted) -> Fitted | None:
    """Return what took its place: the next that was fitted there, or the same part where it was fitted next."""
    component = one.key.partition("/")[2]
    later = [
        other
        for other in fitted
        if other.place > one.place
        and (
            (other.car, other.key) == (one.car, one.key)
            or (other.serial == one.serial != "" and other.key.partition("/")[2] == component)
        )
    ]
    return later[0] if later else None


def _in_event(span: Span, place: int, runs: Runs) -> tuple[int, bool, bool, Fraction, Fraction]:
    """Return the event, whether the part ran in it so far and by its end, and the km of both."""
    run = runs[place].get(span.car)
    begins, ends = span.begins, span.ends
    outside = run is None or (begins and begins.event > place) or (ends and ends.event < place)
    if run is None or outside or not (run.started or place == len(runs) - 1):
        return (place, False, False, Fraction(0), Fraction(0))
    first = begins.stages if begins and begins.event == place else 0
    upto = ends.stages if ends and ends.event == place else len(run.runs)
    # Of an event that is over all is run but what the log says was not; of this one, what the log has come to.
    now = min(upto, run.done) if place == len(runs) - 1 else upto
    stages = run.logged.event.stages
    ran = [n for n in range(first, now) if run.runs[n]]
    will = [n for n in range(first, upto) if run.runs[n]]
    km, by_end = (sum((Fraction(stages[n].km) for n in some), Fraction(0)) for some in (ran, will))
    # An event without stages, a test day, is one all the same.
    bare = not stages and not (ends and ends.event == place)
    return (place, bool(ran) or bare, bool(will) or bare, km, by_end)
