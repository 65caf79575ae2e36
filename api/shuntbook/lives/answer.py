"""What the server answers on parts with a life: what of it is used, what was fitted, what happened to it since."""

from typing import Literal

from msgspec import Struct

State = Literal["due", "nearly", "not-known", "within"]
"""due: a limit is reached. nearly: NEARLY of one is, or it will be before this event ends. not-known: nobody said when
it was fitted, and it lasts a number of days. within: none of these."""
How = Literal["fitted", "replaced", "renewed"]
"""By `part.fitted`, by a repair that put another one in, by the routine work of a plan."""
What = Literal["found", "done"]
STATES: tuple[State, ...] = ("due", "nearly", "not-known", "within")


class LifeLimit(Struct, frozen=True):
    """One limit of a part: events, stage km or days; `used` so far, and by the end of this event; None: not known.

    What `events` counts as used are those that are over.
    """

    of: Literal["events", "stage_km", "days"]
    limit: float
    used: float | None
    by_end: float | None


class LifeBegan(Struct, frozen=True):
    """When the part went in, how, and who said so."""

    entry: str
    event: str
    how: How
    day: str | None
    person: str
    rebuilt: bool


class LifeHappened(Struct, frozen=True):
    """What happened to the part in this life: found in a condition, or something done to it."""

    entry: str
    event: str
    event_name: str
    day: str | None
    stage: str | None
    what: What
    says: str


class LifePart(Struct, frozen=True):
    """What renewing it takes, by the rate table."""

    part: str
    qty: float
    unit_cost: str


class Life(Struct, frozen=True, kw_only=True):
    """A part with a life at a place of the car; `began` None: the log does not say when it was fitted.

    Then `used` counts from the first event that is held, and the part may have used more. action, minutes, mechanics,
    access, parts, cost: what renewing it takes by the rate table; action None: no row puts another one in.
    """

    job: str
    zone: str
    component: str
    label: str
    state: State
    must_do: bool
    safety_critical: bool
    serial: str
    began: LifeBegan | None
    limits: list[LifeLimit]
    happened: list[LifeHappened]
    action: str | None
    minutes: float | None
    parts: list[LifePart]
    cost: str | None


class Lives(Struct, frozen=True):
    """The parts of a car that have a life, the most pressing first, at an event from its day `today` to its last."""

    event: str
    car: str
    today: str | None
    ends: str | None
    currency: str
    lives: list[Life]
