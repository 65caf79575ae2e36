"""The parts of a car that have a life, by what is due at an event."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from datetime import date, datetime
from decimal import Decimal
from fractions import Fraction

from shuntbook.kit.money import Currency, quantity, two_decimals
from shuntbook.kit.times import day_in
from shuntbook.lives.answer import STATES, Life, LifeBegan, LifeHappened, LifeLimit, LifePart, Lives, State, What
from shuntbook.lives.calendar import CarRun, Logged, calendar, car_run, heads_of
from shuntbook.lives.fitted import REPLACES, Fitted, fitted_in, latest, renewing
from shuntbook.lives.used import Runs, Span, age_days, span_now, spans_of, used
from shuntbook.report.body import Body
from shuntbook.report.entry import Entry
from shuntbook.report.working import JobFinished
from shuntbook.setup.dated import Life as Limited
from shuntbook.setup.event import Routine
from shuntbook.setup.folder import Setup
from shuntbook.setup.rates import Operation
from shuntbook.setup.words import split_key

NEARLY = Fraction(4, 5)
"""From this share of a limit on, a part is nearly due. Common practice, no source: long enough to have one sent."""
MOST_HAPPENED = 20


def lives_of(events: Iterable[Logged], event: str, car: str, among: Collection[str] | None = None) -> Lives:
    """Return what of a car's parts is due at an event, by all events up to it.

    among: the events whose story may be told (None: all); what was run in the others counts all the same.
    """
    held = calendar(events, event)
    setup = held[-1].setup
    runs = [{name: car_run(logged, name) for name in {*logged.cars, *logged.event.cars}} for logged in held]
    limited = dict(_limited(setup, car))
    fitted = _fitted(held, runs, setup)
    today, ends = _today(held[-1], runs[-1].get(car))
    found = [
        _life(setup, key, row, span_now(fitted, car, key), fitted, runs, (today, ends), among)
        for key, row in limited.items()
    ]
    coin = setup.rates.currency
    return Lives(event, car, _iso(today), _iso(ends), coin.code, sorted(found, key=_press))


def due_routine(lives: Lives, setup: Setup, taken: Collection[str]) -> list[Routine]:
    """Return what is due as routine work of a plan; not what an open job renews anyway (`taken`: keys of such jobs)."""
    found = []
    for life in lives.lives:
        row = renewing(setup, life.job)
        if life.state == "due" and life.job not in taken:
            minutes = row.minutes if row else setup.rates.assess_minutes
            access = row.access if row else ()
            points = tuple(
                Decimal(one.numerator) / one.denominator for one in (minutes.best, minutes.likely, minutes.worst)
            )
            best, likely, worst = points
            task, people = f"renew {life.job}", row.mechanics if row else 1
            found.append(Routine(task, (), (best, likely, worst), people, life.zone, access, life.must_do))
    return found


def _limited(setup: Setup, car: str) -> Iterator[tuple[str, Limited]]:
    """Return the car's parts that have a life, by zone/component: a row of its own car or place last, which counts."""
    for row in sorted(setup.event.lives, key=lambda one: (one.car != "", one.place != "")):
        zones = (
            [row.place]
            if row.place
            else [z.zone for z in setup.car_map.zones.values() if row.component in z.components]
        )
        if row.car in ("", car):
            yield from ((f"{zone}/{row.component}", row) for zone in zones)


def _fitted(held: Sequence[Logged], runs: Runs, setup: Setup) -> list[Fitted]:
    """Return all fittings of components with a life, anywhere in any car: a part may come from another place."""
    components = {row.component for row in setup.event.lives}
    keys = frozenset(f"{zone}/{name}" for zone in setup.car_map.zones for name in components)
    keys |= {f"{row.place}/{row.component}" for row in setup.event.lives if row.place}
    return latest(
        one for place, cars in enumerate(runs) for run in cars.values() for one in fitted_in(run, place, held, keys)
    )


def _today(logged: Logged, run: CarRun | None) -> tuple[date | None, date | None]:
    """Return the day that the log of this event has come to, not before its first, and its last day."""
    if logged.days is None:
        return (None, None)
    told = [day_in(entry.when, logged.event.timezone) for entry in run.log.entries] if run else []
    first, last = logged.days
    return (min(max([first, *told]), last), last)


def _life(
    setup: Setup,
    key: str,
    row: Limited,
    now: Span,
    fitted: Sequence[Fitted],
    runs: Runs,
    days: tuple[date | None, date | None],
    among: Collection[str] | None,
) -> Life:
    spans, (zone, _, component) = spans_of(fitted, now), key.partition("/")
    limits = list(_limits(row, spans, runs, days))
    operation, coin = renewing(setup, key), setup.rates.currency
    known = setup.car_map.components.get(component)
    return Life(
        job=key,
        zone=zone,
        component=component,
        label=row.label or (known.label if known else component),
        state=min((_state(limit) for limit in limits), key=STATES.index),
        must_do=row.must_do,
        safety_critical=setup.car_map.safety_critical(zone, component),
        serial=now.begins.serial if now.begins else "",
        began=_began(spans[0].begins),
        limits=limits,
        happened=_happened(spans, runs, among),
        action=operation.action if operation else None,
        minutes=two_decimals(operation.minutes.expected) if operation else None,
        parts=_parts(operation, setup, coin),
        cost=_cost(operation, setup, coin),
    )


def _limits(
    row: Limited, spans: Sequence[Span], runs: Runs, days: tuple[date | None, date | None]
) -> Iterator[LifeLimit]:
    ran, (today, ends) = used(spans, runs), days
    if row.events is not None:
        yield LifeLimit("events", row.events, ran.events, ran.events_by_end)
    if row.stage_km is not None:
        km = (two_decimals(Fraction(row.stage_km)), two_decimals(ran.km), two_decimals(ran.km_by_end))
        yield LifeLimit("stage_km", *km)
    if row.days is not None:
        yield LifeLimit("days", row.days, age_days(spans, today), age_days(spans, ends))


def _state(limit: LifeLimit) -> State:
    if limit.used is None or limit.by_end is None:
        return "not-known"
    if limit.used >= limit.limit:
        return "due"
    share = Fraction(str(limit.used)) / Fraction(str(limit.limit))
    return "nearly" if share >= NEARLY or limit.by_end >= limit.limit else "within"


def _press(life: Life) -> tuple[int, bool, float, str]:
    share = max((limit.used / limit.limit for limit in life.limits if limit.used is not None), default=0.0)
    return (STATES.index(life.state), not life.must_do, -share, life.job)


def _began(begins: Fitted | None) -> LifeBegan | None:
    if begins is None:
        return None
    entry = begins.entry
    return LifeBegan(entry.id, entry.event, begins.how, _iso(begins.day), entry.person, begins.rebuilt)


def _happened(spans: Sequence[Span], runs: Runs, among: Collection[str] | None) -> list[LifeHappened]:
    """Return what was found on the part and done to it, in order of time; of a long story the newest."""
    found = [
        one
        for place, cars in enumerate(runs)
        for span in spans
        if (run := cars.get(span.car)) is not None and (among is None or run.logged.event.event in among)
        for one in _at(span, place, run)
    ]
    return [happened for _, happened in sorted(found, key=lambda one: one[0])][-MOST_HAPPENED:]


def _at(span: Span, place: int, run: CarRun) -> Iterator[tuple[tuple[int, datetime, str], LifeHappened]]:
    event = run.logged.event
    for when, entry, what, stage, says in [*_seen(span.key, run), *_done(span.key, run)]:
        after = span.begins is None or (place, when) >= (span.begins.event, span.begins.when)
        before = span.ends is None or (place, when) < (span.ends.event, span.ends.when)
        if after and before:
            day = _iso(day_in(when, event.timezone))
            told = LifeHappened(entry.id, event.event, event.name, day, stage, what, says)
            yield ((place, when, entry.id), told)


def _seen(key: str, run: CarRun) -> Iterator[tuple[datetime, Entry, What, str | None, str]]:
    """Yield what was said of the part itself; what only has to be inspected for another one's sake is no story."""
    zone, component = split_key(key)
    for when, entry in heads_of(run.log.entries):
        if isinstance(entry.data, Body) and entry.data.zone == zone:
            for finding in entry.data.findings:
                if finding.component == component:
                    yield (when, entry, "found", entry.data.stage, finding.condition)


def _done(key: str, run: CarRun) -> Iterator[tuple[datetime, Entry, What, str | None, str]]:
    """Yield the repairs that left the part in the car."""
    for entry in run.log.acts.get(key, ()):
        if isinstance(entry.data, JobFinished) and entry.data.action not in ("", *REPLACES):
            yield (entry.when, entry, "done", None, entry.data.action)


def _parts(row: Operation | None, setup: Setup, coin: Currency) -> list[LifePart]:
    if row is None:
        return []
    costs = {part: setup.rates.parts[part].unit_cost for part in row.parts}
    return [LifePart(part, quantity(Fraction(qty)), coin.text(costs[part])) for part, qty in sorted(row.parts.items())]


def _cost(row: Operation | None, setup: Setup, coin: Currency) -> str | None:
    if row is None:
        return None
    parts = sum((setup.rates.parts[part].unit_cost * qty for part, qty in row.parts.items()), Decimal(0))
    return coin.text(coin.round(parts) + setup.rates.labour(row.minutes.expected * row.mechanics))


def _iso(day: date | None) -> str | None:
    return None if day is None else day.isoformat()
