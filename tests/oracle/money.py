"""Works out minutes and money: estimates, order, shortages, totals."""

import math
from decimal import Decimal
from fractions import Fraction
from typing import Any

from .carmap import component_of, zone_of
from .entries import listed, of_kind
from .folder import Folder
from .jobs import Job

# Minor units by ISO 4217, from memory; every currency not named has two.
NO_DECIMALS = [
    "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV", "XAF", "XOF",
    "XPF",
]  # fmt: skip
THREE_DECIMALS = ["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"]


def decimals_of(currency: str) -> int:
    """How many decimals the currency has."""
    if currency in NO_DECIMALS:
        return 0
    return 3 if currency in THREE_DECIMALS else 2


def half_up(exact: Fraction, decimals: int) -> Fraction:
    """Rounded half up to so many decimals."""
    scale = 10**decimals
    return Fraction(math.floor(exact * scale + Fraction(1, 2)), scale)


def number(exact: Fraction) -> int | float:
    """Minutes or a quantity as JSON shows them: two decimals, whole ones without."""
    rounded = half_up(exact, 2)
    return int(rounded) if rounded.denominator == 1 else float(rounded)


def money(rounded: Fraction, currency: str) -> str:
    """An amount as text, with exactly the currency's decimals."""
    places = Decimal(1).scaleb(-decimals_of(currency))
    return str((Decimal(rounded.numerator) / Decimal(rounded.denominator)).quantize(places))


def row_of(folder: Folder, job: Job) -> dict[str, Any] | None:
    """The rate table's row for component, condition and zone, or the one without a zone; none to look at `unknown`."""
    if job.condition == "unknown":
        return None
    rows = [one for one in folder.operations if one["component"] == component_of(job.key)]
    rows = [one for one in rows if one["condition"] == job.condition]
    in_zone = [one for one in rows if one.get("zone") == zone_of(job.key)]
    anywhere = [one for one in rows if not one.get("zone")]
    answer: dict[str, Any] | None = (in_zone + anywhere + [None])[0]
    return answer


def action_of(folder: Folder, job: Job) -> str:
    """Unknown is inspected; the row says what else to do; without a row somebody assesses."""
    row = row_of(folder, job)
    if job.condition == "unknown":
        return "inspect"
    return row["action"] if row else "assess"


def minutes_of(folder: Folder, job: Job) -> list[Any]:
    """Best, likely and worst minutes: the row's, or what the table gives to assess, or (by group) to inspect."""
    row = row_of(folder, job)
    if row:
        return [Fraction(row[name]) for name in ("minutes_best", "minutes_likely", "minutes_worst")]
    if job.condition == "unknown" and job.further:
        return [Fraction(one) for one in folder.rates["inspect_next_minutes"]]
    if job.condition == "unknown":
        by_group = folder.rates.get("inspect_minutes_by_group", {})
        return [Fraction(one) for one in by_group.get(job.group, folder.rates["inspect_minutes"])]
    return [Fraction(one) for one in folder.rates["assess_minutes"]]


def expected(minutes: list[Any]) -> Fraction:
    """Expected minutes: best, four times likely, worst, by six."""
    best, likely, worst = minutes
    answer: Fraction = (best + 4 * likely + worst) / 6
    return answer


def mechanics_of(folder: Folder, job: Job) -> int:
    """The row's mechanics; one to inspect or to assess."""
    row = row_of(folder, job)
    return int(row["mechanics"]) if row else 1


def labour(folder: Folder, mechanic_minutes: Fraction) -> Fraction:
    """One line of labour, rounded once."""
    exact = mechanic_minutes * Fraction(folder.rates["labour_per_hour"]) / 60
    return half_up(exact, decimals_of(folder.rates["currency"]))


def split(cell: str | None) -> list[Any]:
    """The names in a cell, separated by semicolons."""
    return [one.strip() for one in (cell or "").split(";") if one.strip()]


def parts_needed(row: dict[str, Any] | None) -> dict[str, Fraction]:
    """Quantity by part: `part*qty`, a part alone is one, equal parts add up."""
    needed: dict[str, Fraction] = {}
    for one in split(row["parts"]) if row else []:
        part, _, qty = one.partition("*")
        needed[part] = needed.get(part, Fraction(0)) + Fraction(qty or 1)
    return needed


def done_with(job: Job) -> bool:
    """Finished and accepted jobs come last, need no part, and count in no total."""
    return job.state in ("finished", "accepted")


def must_do(folder: Folder, job: Job) -> bool:
    """Safety-critical and not passed; or the row says so while the job is neither finished nor accepted."""
    row = row_of(folder, job)
    row_says_so = row is not None and row["must_do"].strip().lower() in ("true", "yes", "1")
    return (job.safety_critical and job.inspection != "passed") or (row_says_so and not done_with(job))


def worth(folder: Folder, job: Job) -> Fraction:
    """Value by expected mechanic-minutes, exact; nothing without a row."""
    row = row_of(folder, job)
    if row is None:
        return Fraction(0)
    return Fraction(row["value"]) / (expected(minutes_of(folder, job)) * mechanics_of(folder, job))


def ordered(folder: Folder, jobs: list[Any]) -> list[Any]:
    """Done ones last; safety first; then what must be done; then the most worth; then the key by code point."""

    def place(job: Job) -> tuple[Any, ...]:
        return (done_with(job), not job.safety_critical, not must_do(folder, job), -worth(folder, job), job.key)

    return sorted(jobs, key=place)


def with_further(folder: Folder, jobs: list[Any]) -> list[Any]:
    """The jobs in order; of those of one zone of the map that are to be inspected, all but the first are further.

    Done ones do not count, and only where the rate table has minutes for them.
    """
    zones = []
    for job in jobs:
        if job.condition == "unknown" and not done_with(job) and zone_of(job.key) in folder.car_map.get("zones", {}):
            job.further = zone_of(job.key) in zones and "inspect_next_minutes" in folder.rates
            zones.append(zone_of(job.key))
    return jobs


def left_in_van(folder: Folder) -> dict[str, Fraction]:
    """What the van was loaded with, less what the repairs of all cars used, never below nothing."""
    left = {part: Fraction(loaded) for part, loaded in folder.loaded.items()}
    for repair in of_kind(folder.all_entries, "job.finished"):
        for one in listed(repair, "parts"):
            left[one["part"]] = left.get(one["part"], Fraction(0)) - Fraction(one["qty"])
    return {part: max(Fraction(0), qty) for part, qty in left.items()}


def shortages(folder: Folder, jobs: list[Any]) -> dict[tuple[str, str], Fraction]:
    """What is short of each part for each job (key, part), the jobs in queue order taking from the van in turn."""
    left = left_in_van(folder)
    short: dict[tuple[str, str], Fraction] = {}
    for job in jobs:
        for part, qty in parts_needed(row_of(folder, job)).items():
            wanted = Fraction(0) if done_with(job) else qty
            have = left.get(part, Fraction(0))
            short[job.key, part] = max(Fraction(0), wanted - have)
            left[part] = max(Fraction(0), have - wanted)
    return short
