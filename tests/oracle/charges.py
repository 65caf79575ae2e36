"""Who pays what, read from the rules alone: the charged lines of a car's log, and each step of the sum.

It knows logs as `agreements` draws them: each report stands as it was filed, and a key is repaired at most once.
"""

import datetime as dt
from fractions import Fraction
from typing import Any

from .money import decimals_of, half_up

MILDEST = ["not-charged", "wear", "damage", "misuse"]


class Case:
    """A log with its rates and its agreement, all as plain values."""

    def __init__(self, drawn: dict[str, Any]) -> None:
        self.drawn = drawn
        self.terms = drawn["agreement"]
        self.entries = sorted(drawn["entries"], key=lambda one: one["id"])
        self.decimals = decimals_of(drawn["currency"])

    def of(self, kind: str) -> list[Any]:
        """The entries of one kind, oldest first."""
        return [one for one in self.entries if one["kind"] == kind]

    def rounded(self, exact: Fraction) -> Fraction:
        """Rounded once, to the currency's smallest coin."""
        return half_up(exact, self.decimals)

    def term(self, name: str, otherwise: Any) -> Any:
        """A term of the agreement, or what holds without it."""
        return self.terms.get(name, otherwise)


def number(text: Any) -> Fraction:
    """An exact number."""
    return Fraction(str(text))


def when(entry: Any) -> dt.datetime:
    """When an entry was written."""
    return dt.datetime.fromisoformat(entry["at"])


# ---- lines ----


def lines_of(case: Case) -> list[Any]:
    """One line for each repair, one for what is left of each key; those of the hand-over are marked."""
    lines = []
    for key in sorted({key for report in case.of("report.filed") for key, _ in said(report)}):
        lines += lines_of_key(case, key)
    share_access(case, lines)
    return lines


def said(report: Any) -> list[Any]:
    """What a report says: key and condition."""
    data = report["data"]
    return [(f"{data['zone']}/{one['component']}", one["condition"]) for one in data["findings"]]


def lines_of_key(case: Case, key: str) -> list[Any]:
    """The repaired line of a key, and the line of what no repair covers."""
    about = [(one, how) for one in case.of("report.filed") for named, how in said(one) if named == key]
    repairs = [one for one in case.of("job.finished") if one["subject"] == key]
    covered = [pair for pair in about if any(pair[0]["id"] in repair["data"]["covers"] for repair in repairs)]
    left = [pair for pair in about if pair not in covered]
    lines = [line(case, key, covered, repair) for repair in repairs]
    return [*lines, *([line(case, key, left, None)] if left else [])]


def line(case: Case, key: str, about: list[Any], repair: Any) -> dict[str, Any]:
    """A line with its report, which is the one with the worst condition; what was there before comes last of equals."""
    ordered = sorted(about, key=lambda pair: (-worse(case, pair), was_there(case, key, pair), place(case, pair[0])))
    report, condition = ordered[0]
    row = case.drawn["rows"].get((key.split("/")[1], condition))
    minutes = number(row["minutes"]) * row["mechanics"] if row else number(case.drawn["assess_minutes"])
    return {
        "name": f"repair/41/{key}/{repair['id']}" if repair else f"open/41/{key}",
        "key": key,
        "component": key.split("/")[1],
        "report": report,
        "condition": condition,
        "before": was_there(case, key, ordered[0]),
        "repair": repair,
        "estimated": minutes,
        "minutes": worked(repair, minutes, row),
        "parts": parts_of(repair, row),
        "steps": row["access"] if row else [],
        "access": Fraction(0),
    }


def worse(case: Case, pair: Any) -> int:
    """How bad a condition is."""
    order: list[str] = case.drawn["conditions"]
    return order.index(pair[1])


def place(case: Case, report: Any) -> tuple[Any, ...]:
    """Where a report is in the itinerary; without a stage after all of it."""
    stages = case.drawn["stages"]
    stage = report["data"].get("stage")
    return (stages.index(stage) if stage in stages else len(stages), stage or "", report["id"])


def was_there(case: Case, key: str, pair: Any) -> bool:
    """Said at the hand-over, or said again and no worse than there."""
    report, condition = pair
    if report["data"]["where"] == "hand-over":
        return True
    marks = [
        how
        for one in case.of("report.filed")
        if one["data"]["where"] == "hand-over"
        for k, how in said(one)
        if k == key
    ]
    return any(worse(case, (None, condition)) <= worse(case, (None, how)) for how in marks)


def worked(repair: Any, estimated: Fraction, row: Any) -> Fraction:
    """Mechanic-minutes: as entered, else as estimated."""
    minutes = repair["data"].get("minutes") if repair else None
    if minutes is None:
        return estimated
    mechanics = repair["data"].get("mechanics")
    return number(minutes) * (mechanics if mechanics is not None else row["mechanics"] if row else 1)


def parts_of(repair: Any, row: Any) -> list[Any]:
    """Part and quantity: those used, or those that the row takes."""
    if repair:
        return [(one["part"], number(one["qty"])) for one in repair["data"]["parts"]]
    return [(part, number(qty)) for part, qty in row["parts"].items()] if row else []


def share_access(case: Case, lines: list[Any]) -> None:
    """Open each step once a service, for the car or for a zone, and share its minutes by estimated work.

    What was there before bears none of it where something new needs the step, too.
    """
    services = {one["repair"]["data"]["service"] if one["repair"] else None for one in lines}
    for service in services:
        together = [one for one in lines if (one["repair"]["data"]["service"] if one["repair"] else None) == service]
        for step, (per, minutes) in case.drawn["access"].items():
            needing = [one for one in together if step in one["steps"]]
            zones = {one["key"].split("/")[0] if per == "zone" else "" for one in needing}
            for zone in zones:
                open_step(number(minutes), [one for one in needing if zone in ("", one["key"].split("/")[0])])


def open_step(minutes: Fraction, needing: list[Any]) -> None:
    """Give each line its share of one step."""
    bearing = [one for one in needing if not one["before"]] or needing
    whole = sum(one["estimated"] for one in bearing)
    for one in bearing:
        one["access"] += minutes * one["estimated"] / whole


# ---- who pays for a line ----


def decision(case: Case, name: str) -> tuple[Any, dict[str, Fraction]]:
    """What managers decided of a line, the mildest of what stands, and how far parts were used."""
    mine = [one for one in case.of("charge.decided") if one["person"] in case.drawn["managers"]]
    gone = {old for one in mine for old in one["data"].get("replaces", []) if old < one["id"]}
    mine = [one["data"] for one in mine if one["subject"] == name and one["id"] not in gone]
    charges = [one["charge"] for one in mine if one.get("charge")]
    charge = min(charges, key=MILDEST.index) if charges else None
    used: dict[str, Fraction] = {}
    for one in mine:
        if one.get("charge") in (None, charge):
            for worn in one.get("worn", []):
                used[worn["part"]] = max(number(worn["used_percent"]), used.get(worn["part"], Fraction(0)))
    return charge, used


def paid(case: Case, one: dict[str, Any]) -> bool:
    """Whether the customer is charged for a line at all."""
    never = [*case.term("excluded", []), *case.term("wear_excluded", [])]
    if one["before"] or one["component"] in never:
        return False
    charge, _ = decision(case, one["name"])
    wear_is_charged = case.term("wear", "excluded") == "charged"
    if charge:
        return charge in ("damage", "misuse") or (charge == "wear" and wear_is_charged)
    body = one["report"]["data"]
    worn = one["condition"] == "worn" or body["cause"] == "wear"
    return not (
        (worn and not wear_is_charged)
        or (case.term("recovery", "charged") == "included" and body["cause"] == "recovery")
        or somebody_else_drove(case, one["report"])
        or found_alone(case, one["report"])
        or found_late(case, one["report"])
    )


def estimated_again(case: Case, one: dict[str, Any], mine: list[Any]) -> bool:
    """An estimate of a part whose repair the same hit is charged for, and nobody decided that it is charged, too."""
    hit = hit_of(case, one["report"])
    repaired = any(o["repair"] and o["key"] == one["key"] and hit_of(case, o["report"]) == hit for o in mine)
    return not one["repair"] and repaired and decision(case, one["name"])[0] is None


def hit_of(case: Case, report: Any) -> str:
    """The hit that a report is of: as grouped, else what is behind it, else itself."""
    for group in case.of("incident.grouped"):
        if report["id"] in group["data"]["reports"]:
            return str(group["id"])
    behind = report["data"].get("caused_by")
    reports = {one["id"]: one for one in case.of("report.filed")}
    return hit_of(case, reports[behind]) if behind else str(report["id"])


def somebody_else_drove(case: Case, report: Any) -> bool:
    """Somebody drove when it was first hit who is none of the customer's drivers."""
    hit = hit_of(case, report)
    first = min(when(one) for one in case.of("report.filed") if hit_of(case, one) == hit)
    drove = [one["data"]["driver"] for one in case.of("driver.changed") if when(one) <= first]
    drivers = case.term("drivers", [])
    return bool(drivers and drove and drove[-1] not in drivers)


def found_alone(case: Case, report: Any) -> bool:
    """Found in the workshop, linked to no hit, and not by the walk that both signed at the return."""
    walks = [one for one in case.of("handover.signed") if one["data"]["walk"] == "return"]
    signed = any(report["id"] in one["data"].get("marks", []) for one in walks)
    hit = hit_of(case, report)
    others = [one for one in case.of("report.filed") if one is not report and hit_of(case, one) == hit]
    grouped = any(one["id"] == hit for one in case.of("incident.grouped"))
    return report["data"]["where"] == "workshop" and not (signed or others or grouped)


def found_late(case: Case, report: Any) -> bool:
    """Filed more than the days agreed after the last return."""
    days = case.term("later_findings_days", None)
    returns = [when(one) for one in case.of("handover.signed") if one["data"]["walk"] == "return"]
    return days is not None and bool(returns) and when(report) > max(returns) + dt.timedelta(days=days)


# ---- sums ----


def statement(drawn: dict[str, Any]) -> dict[str, Any]:
    """Each line's amount, what of each hit is to be paid, and the totals, in exact numbers."""
    case = Case(drawn)
    mine = [one for one in lines_of(case) if paid(case, one)]
    mine = [one for one in mine if not estimated_again(case, one, mine)]
    mine.sort(key=lambda one: (*place_of_hit(case, one), one["name"]))
    charge_lines(case, mine)
    damage = [one for one in mine if decision(case, one["name"])[0] != "misuse"]
    hits = {hit_of(case, one["report"]): Fraction(0) for one in mine}
    for hit in hits:
        hits[hit] = of_hit(case, sum(one["amount"] for one in damage if hit_of(case, one["report"]) == hit))
    to_pay = of_event(case, sum(hits.values(), Fraction(0)))
    to_pay += sum(one["amount"] for one in mine if one not in damage)
    tax = case.rounded(to_pay * number(case.term("tax_percent", 0)) / 100)
    return {
        "lines": {one["name"]: one["amount"] for one in mine},
        "hits": hits,
        "damage": sum((one["amount"] for one in mine), Fraction(0)),
        "to_pay": to_pay,
        "tax": tax,
        "rest": to_pay + tax - number(case.term("deposit", 0)),
    }


def place_of_hit(case: Case, one: dict[str, Any]) -> tuple[Any, ...]:
    """Where a line's hit comes: included parts go to the first hits."""
    stages = case.drawn["stages"]
    stage = one["report"]["data"].get("stage")
    return (
        stages.index(stage) if stage in stages else len(stages),
        when(one["report"]).timestamp(),
        hit_of(case, one["report"]),
    )


def charge_lines(case: Case, lines: list[Any]) -> None:
    """Give each line its amount: parts, labour and consumables, each rounded once."""
    left = {part: number(qty) for part, qty in case.term("included", {}).items()}
    groups: dict[str, list[Any]] = {}
    for one in lines:
        groups.setdefault(hit_of(case, one["report"]), []).append(one)
    for one in [one for group in groups.values() for one in group]:
        parts = case.rounded(sum((part_price(case, one, part, left) for part in one["parts"]), Fraction(0)))
        per_hour = number(case.term("labour_per_hour", case.drawn["labour_per_hour"]))
        labour = case.rounded((one["minutes"] + one["access"]) * per_hour / 60)
        percent = number(case.term("consumables_percent", case.drawn["consumables_percent"]))
        one["amount"] = parts + labour + case.rounded(parts * percent / 100)


def part_price(case: Case, one: dict[str, Any], of: tuple[str, Fraction], left: dict[str, Fraction]) -> Fraction:
    """A part less those in the price and less what was used of it, not rounded."""
    part, qty = of
    included = min(qty, left.get(part, Fraction(0)))
    left[part] = left.get(part, Fraction(0)) - included
    used = decision(case, one["name"])[1].get(part, Fraction(0)) if case.term("part_worn", True) else Fraction(0)
    return (qty - included) * number(case.drawn["parts"].get(part, 0)) * (100 - used) / 100


def of_hit(case: Case, damage: Fraction) -> Fraction:
    """What the customer bears of one hit: his share, then at most the excess where that is of the hit."""
    share = number(case.term("share_percent", 100))
    to_pay = case.rounded(Fraction(damage) * share / 100)
    if "excess" in case.terms and case.term("excess_per", "incident") == "incident":
        to_pay = min(to_pay, number(case.terms["excess"]))
    return to_pay


def of_event(case: Case, damage: Fraction) -> Fraction:
    """What he bears of all damage: at most the excess where that is of the event, then at most the cap."""
    if "excess" in case.terms and case.term("excess_per", "incident") == "event":
        damage = min(damage, number(case.terms["excess"]))
    return min(damage, number(case.terms["cap"])) if "cap" in case.terms else damage
