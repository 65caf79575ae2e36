"""The cost sheet of a car, calculated by hand: labour is 1.00 a mechanic-minute, tax 20 %."""

import csv
import io
from decimal import Decimal
from fractions import Fraction
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec import convert, to_builtins

from making import Pen, ids, parsed
from shuntbook.cost.access import apportion
from shuntbook.cost.answer import Costs
from shuntbook.cost.sheet import cost_sheet
from shuntbook.cost.table import costs_csv, defused
from shuntbook.kit.money import Currency
from small_event import FILES, small_setup

HOSE, WHEEL, LAMP = "front-left/brake-hose", "front-left/wheel", "front-end/lamp"


def sheet(entries, setup, car=None):
    cars = {name: parsed(e for e in entries if e["car"] == name) for name in {e["car"] for e in entries}}
    return to_builtins(cost_sheet(cars, setup, car))


@pytest.fixture
def case(pen):
    """A hose repaired in 7.5 timed minutes by two, a lamp repaired untimed, a bumper still bent."""
    hose = pen.filed(f"{HOSE} leaking", stage="SS1")
    ends = pen.filed(f"{LAMP} broken", "front-end/bumper bent", stage="SS2")
    used = [{"part": "hose", "qty": 1}, {"part": "cable-tie", "qty": 4}]
    return {
        "hose": hose,
        "ends": ends,
        "fixed": pen.finished(HOSE, hose, minutes=7.5, mechanics=2, parts=used, service="A"),
        "swapped": pen.finished(LAMP, ends, parts=[{"part": "lamp", "qty": 1}], service="B"),
        "less": pen.entry("cost.adjusted", person="p-vera", line=HOSE, amount="-10.005", reason="own stock"),
        "more": pen.entry("cost.adjusted", person="p-bodo", line=HOSE, amount="99.00", reason="not his to say"),
    }


# name → (estimate labour, parts, total; actual labour, parts, total)
BY_HAND = {
    # 6 min × 1, two hoses of 35.55; 7.5 min × 2 and one hose, the cable ties have no price
    "repair/41/front-left/brake-hose/FIXED": ("6.00", "71.10", "77.10", "15.00", "35.55", "50.55"),
    # 1 min × 2, a lamp of 80.25; not timed: the estimate's labour
    "repair/41/front-end/lamp/SWAPPED": ("2.00", "80.25", "82.25", "2.00", "80.25", "82.25"),
    # 2 min × 1: still to do
    "open/41/front-end/bumper": ("2.00", "0.00", "2.00", None, None, None),
    # service A: stands (2 + 1) × 2, wheel off (1 + 1) × 1; service B: bonnet (0.5 + 0.5) × 1
    "access/41/car-on-stands/A": ("6.00", "0.00", "6.00", "6.00", "0.00", "6.00"),
    "access/41/wheel-off/front-left/A": ("2.00", "0.00", "2.00", "2.00", "0.00", "2.00"),
    "access/41/bonnet-up/B": ("1.00", "0.00", "1.00", "1.00", "0.00", "1.00"),
}


def figures(line):
    money = [line["estimate"], line["actual"] or {}]
    return tuple(part.get(name) for part in money for name in ("labour", "parts_cost", "total"))


def test_each_line_is_what_was_reckoned_by_hand(case, setup):
    lines = {named(line, case): figures(line) for line in sheet(case.values(), setup)["lines"]}
    assert lines == BY_HAND


def named(line, case):
    """The line's name with the two repairs' ids told in words."""
    return line["line"].replace(case["fixed"]["id"], "FIXED").replace(case["swapped"]["id"], "SWAPPED")


def test_no_two_lines_have_one_name(pen, setup):
    hose = pen.filed(f"{HOSE} leaking", stage="SS1")
    rounds = [pen.finished(HOSE, hose, minutes=5, mechanics=1, service=service) for service in ("A", "B")]
    names = [line["line"] for line in sheet([hose, *rounds], setup)["lines"]]
    assert len(set(names)) == len(names) > 4


def test_totals_tax_the_sum_of_rounded_lines_with_the_managers_correction(case, setup):
    # Done: 50.55 + 82.25 + 6 + 2 + 1 = 141.80. The manager's −10.005 is −10.01; the mechanic's does not count.
    # Before tax 131.79, tax 20 % = 26.358 → 26.36, total 158.15. Estimate: 77.10 + 82.25 + 2 + 9 = 170.35.
    assert sheet(case.values(), setup)["totals"] == {
        "estimate": "170.35",
        "consumables": "0.00",
        "actual": "141.80",
        "adjustments": "-10.01",
        "before_tax": "131.79",
        "tax": "26.36",
        "total": "158.15",
    }


def test_an_adjustment_by_anybody_but_a_manager_is_shown_and_does_not_count(case, setup):
    shown = sheet(case.values(), setup)["adjustments"]
    assert [(item["person"], item["amount"], item["counts"]) for item in shown] == [
        ("p-vera", "-10.01", True),
        ("p-bodo", "99.00", False),
    ]


def test_an_undone_adjustment_is_gone(case, pen, setup):
    undone = pen.voided(case["less"], "p-vera")
    assert sheet([*case.values(), undone], setup)["totals"]["adjustments"] == "0.00"


def test_a_line_names_the_entries_behind_it(case, setup):
    lines = {line["line"]: line for line in sheet(case.values(), setup)["lines"]}
    repair = lines[f"repair/41/front-left/brake-hose/{case['fixed']['id']}"]
    assert repair["entries"] == sorted(ids([case["hose"], case["fixed"]]))
    assert (repair["stage"], repair["service"], repair["condition"]) == ("SS1", "A", "leaking")
    assert lines["open/41/front-end/bumper"]["entries"] == ids([case["ends"]])
    assert lines["access/41/car-on-stands/A"]["entries"] == repair["entries"]


def test_a_part_without_a_price_is_named_and_costs_nothing(case, setup):
    repair = next(line for line in sheet(case.values(), setup)["lines"] if line["job"] == HOSE)
    assert repair["actual"]["parts"] == [
        {"part": "hose", "qty": 1, "unit_cost": "35.55"},
        {"part": "cable-tie", "qty": 4, "unit_cost": None},
    ]


def test_sums_by_stage_and_zone_follow_the_itinerary_and_the_map_and_bear_the_access(case, setup):
    found = sheet(case.values(), setup)
    # The hose alone needed the stands (6.00) and the wheel off (2.00), the lamp the bonnet (1.00).
    hose, front = ("85.10", "58.55"), ("85.25", "83.25")
    assert [(row["stage"], row["estimate"], row["actual"]) for row in found["by_stage"]] == [
        ("SS1", *hose),
        ("SS2", *front),
    ]
    assert [(row["zone"], row["estimate"], row["actual"]) for row in found["by_zone"]] == [
        ("front-left", *hose),
        ("front-end", *front),
    ]
    assert [row["adjustments"] for row in found["by_stage"]] == ["-10.01", "0.00"]
    by_component = {row["component"]: row["before_tax"] for row in found["by_component"]}
    assert by_component == {"brake-hose": "48.54", "bumper": "0.00", "lamp": "83.25"}


def test_each_repair_of_a_job_is_a_round_with_the_worst_condition_that_it_covers(pen, setup):
    marked, leaking = pen.filed(f"{HOSE} marked", stage="SS2"), pen.filed(f"{HOSE} leaking", stage="SS1")
    later = pen.filed(f"{HOSE} marked", stage="SS3")
    entries = [marked, leaking, later, pen.finished(HOSE, marked, leaking), pen.finished(HOSE, later)]
    lines = [line for line in sheet(entries, setup)["lines"] if line["job"] == HOSE]
    assert [(line["condition"], line["stage"], line["estimate"]["labour"]) for line in lines] == [
        ("leaking", "SS1", "6.00"),
        ("marked", "SS3", "1.00"),
    ]


def test_an_access_step_is_one_line_for_each_service_however_many_jobs_need_it(pen, setup):
    one, two = pen.filed(f"{WHEEL} bent", stage="SS1"), pen.filed("front-left/hub bent", stage="SS1")
    again = pen.filed(f"{WHEEL} bent", stage="SS2")
    entries = [one, two, again]
    entries += [pen.finished(WHEEL, one), pen.finished("front-left/hub", two), pen.finished(WHEEL, again)]
    steps = [(x["step"], x["service"]) for x in sheet(entries, setup)["lines"] if x["kind"] == "access"]
    # Without a service named, the first service after the damage is taken: A after SS1, B after SS2.
    assert sorted(steps) == [("car-on-stands", "A"), ("car-on-stands", "B"), ("wheel-off", "A")]


def test_only_one_car_is_asked_for_or_all(case, setup):
    other = Pen("small-2026", car="42", start=500).filed("front-end/bumper bent")
    both = sheet([*case.values(), other], setup)
    assert {line["car"] for line in both["lines"]} == {"41", "42"}
    assert both["totals"]["estimate"] == "172.35"
    assert sheet([other], setup, "42")["car"] == "42"


def test_the_baseline_at_hand_over_is_no_line(pen, setup):
    assert sheet([pen.filed(f"{WHEEL} marked", where="hand-over")], setup)["lines"] == []


def test_an_old_rate_table_gives_the_same_cents_again(case, setup):
    dearer = small_setup(rates=FILES["rates/rates.toml"].replace(b"= 60", b"= 61.37"))
    assert sheet(case.values(), dearer)["totals"] != sheet(case.values(), setup)["totals"]
    assert sheet(case.values(), small_setup()) == sheet(case.values(), setup)


def test_the_order_of_entries_changes_nothing(case, setup):
    assert sheet(list(case.values())[::-1], setup) == sheet(case.values(), setup)


DIMENSIONS = ("car", "day", "stage", "zone", "component", "driver")


@pytest.mark.parametrize("name", DIMENSIONS)
def test_every_sum_adds_up_to_the_sheet_to_the_cent(case, pen, setup, name):
    other = Pen("small-2026", car="42", start=500)
    hub = other.filed("front-left/hub bent", "front-left/wheel bent", stage="SS3")
    lost = pen.entry("cost.adjusted", person="p-vera", line="roof/vent", amount="3.33", reason="borrowed lamp")
    entries = [*case.values(), hub, other.finished(WHEEL, hub, minutes="3.7"), lost]
    found = sheet(entries, setup)
    rows = found[f"by_{name}"]
    assert len({row[name] for row in rows}) == len(rows)
    for column in ("estimate", "actual", "adjustments", "before_tax"):
        assert sum(Decimal(row[column]) for row in rows) == Decimal(found["totals"][column])


def test_access_is_counted_once_and_shared_by_the_work_that_needs_it(pen, setup):
    # Wheel 4.5 min × 1 and hub 10 min × 2 share the stands: 6.00 × 4.5 / 24.5 = 1.102, 4.898. The hub alone has the
    # wheel off: 2.00.
    both = pen.filed(f"{WHEEL} bent", "front-left/hub bent", stage="SS1")
    entries = [both, pen.finished(WHEEL, both), pen.finished("front-left/hub", both)]
    lines = {line["job"]: line["access_share"] for line in sheet(entries, setup)["lines"] if line["kind"] == "repair"}
    assert lines == {
        WHEEL: {"estimate": "1.10", "actual": "1.10"},
        "front-left/hub": {"estimate": "6.90", "actual": "6.90"},
    }


# The largest-remainder method (Hare quota). Sainte-Laguë and others differ; this one is defined by its own sum:
# 100 votes, 10 seats: 47, 16, 15.8, 12, 6.1, 3.1 % → 5, 2, 1, 1, 1, 0 (the textbook example of the Hare quota with
# 100,000 votes: 47,000 16,000 15,900 12,000 6,000 3,100; from memory).
def test_a_sum_is_parted_by_the_largest_remainders():
    seats = apportion(Decimal(10), [Fraction(n) for n in (47000, 16000, 15900, 12000, 6000, 3100)], Currency("XXX", 0))
    assert seats == [5, 2, 1, 1, 1, 0]


def test_parted_money_adds_up_whatever_the_weights():
    coin = Currency("EUR", 2)
    for cents in (0, 1, 99, 1000, 1001):
        parts = apportion(Decimal(cents) / 100, [Fraction(1), Fraction(1), Fraction(7, 3)], coin)
        assert sum(parts) == Decimal(cents) / 100
        assert all(coin.fits(part) and part >= 0 for part in parts)


weighed = st.fractions(min_value=0, max_value=10**6, max_denominator=10**6)


@given(st.integers(0, 10**9), st.lists(weighed, min_size=1, max_size=30).filter(any))
def test_money_is_parted_in_whole_numbers_as_by_the_method_word_for_word_in_fractions(cents, weights):
    quotas = [cents * weight / sum(weights) for weight in weights]
    seats = [floor(quota) for quota in quotas]
    largest = sorted(range(len(weights)), key=lambda place: quotas[place] - seats[place], reverse=True)
    for place in largest[: cents - sum(seats)]:
        seats[place] += 1
    assert [int(part * 100) for part in apportion(Decimal(cents) / 100, weights, Currency("EUR", 2))] == seats


def test_consumables_are_a_percentage_of_the_parts_of_each_line(pen):
    setup = small_setup(rates=b"consumables_percent = 5\n" + FILES["rates/rates.toml"])
    hose = pen.filed(f"{HOSE} leaking", stage="SS1")
    used = [{"part": "hose", "qty": 1}]
    found = sheet([hose, pen.finished(HOSE, hose, minutes=1, mechanics=1, parts=used, service="A")], setup)
    [line] = [line for line in found["lines"] if line["job"] == HOSE]
    # 5 % of 71.10 = 3.555 → 3.56; of 35.55 = 1.7775 → 1.78. Access takes none.
    assert (line["estimate"]["consumables"], line["actual"]["consumables"]) == ("3.56", "1.78")
    assert line["actual"]["total"] == "38.33"
    assert found["totals"]["consumables"] == "1.78"
    assert found["totals"]["actual"] == "46.33"


def test_the_parts_of_a_line_are_rounded_once_and_not_one_by_one(pen, setup):
    hose = pen.filed(f"{HOSE} leaking", stage="SS1")
    used = [{"part": "hose", "qty": 0.1}, {"part": "lamp", "qty": 0.1}]
    found = sheet([hose, pen.finished(HOSE, hose, minutes=1, mechanics=1, parts=used, service="A")], setup)
    [line] = [line for line in found["lines"] if line["job"] == HOSE]
    # 3.555 and 8.025: 11.58 together; 3.56 and 8.03 would be a cent more.
    assert line["actual"]["parts_cost"] == "11.58"


def test_what_was_there_at_the_hand_over_is_listed_and_costs_nothing(pen, setup):
    before = pen.filed(f"{HOSE} marked", "front-left/wheel marked", where="hand-over", stage=None)
    again = pen.filed(f"{HOSE} marked", stage="SS1")
    found = sheet([before, again], setup)
    assert [(line["job"], line["baseline"]) for line in found["lines"] if line["kind"] == "open"] == [(HOSE, True)]
    assert found["totals"]["estimate"] == "0.00"
    assert found["baseline"]["estimate"] != "0.00"
    worse = pen.filed(f"{HOSE} leaking", stage="SS2")
    found = sheet([before, again, worse], setup)
    assert not any(line["baseline"] for line in found["lines"])
    assert found["baseline"]["estimate"] == "0.00"


def test_a_look_that_a_new_hit_asks_for_does_not_charge_the_old_mark(pen, setup):
    before = pen.filed(f"{HOSE} marked", where="hand-over")
    hit = pen.filed("front-left/wheel bent", stage="SS1")  # a knock-on look at the hose
    lines = {line["job"]: line for line in sheet([before, hit], setup)["lines"] if line["kind"] == "open"}
    assert (lines[HOSE]["condition"], lines[HOSE]["baseline"]) == ("marked", True)
    assert not lines[WHEEL]["baseline"]


def test_a_mark_that_was_there_hides_nothing_worse_and_nothing_elsewhere(pen, setup):
    before = pen.filed("front-end/bumper marked", where="hand-over")
    hit = pen.filed("front-end/bumper bent", "front-end/lamp marked", stage="SS1")
    jobs = {line["job"]: line["baseline"] for line in sheet([before, hit], setup)["lines"] if line["kind"] == "open"}
    assert jobs == {"front-end/bumper": False, "front-end/lamp": False}


def test_who_drove_at_the_hit_is_who_it_is_put_down_to_however_late_the_damage_is_found(pen, setup):
    entries = [
        pen.entry("driver.changed", driver="p-toma"),
        hit := pen.filed(f"{WHEEL} bent", stage="SS1"),
        pen.entry("driver.changed", driver="p-vera"),
        late := pen.filed("front-left/hub bent", where="workshop", caused_by=hit["id"]),
        pen.filed("front-end/lamp broken", stage="SS2"),
    ]
    lines = {line["job"]: line for line in sheet(entries, setup)["lines"] if line["job"]}
    assert [lines[key]["driver"] for key in (WHEEL, "front-left/hub", LAMP)] == ["p-toma", "p-toma", "p-vera"]
    assert lines["front-left/hub"]["incident"] == lines[WHEEL]["incident"] == hit["id"]
    assert late["id"] in lines["front-left/hub"]["entries"]


def test_a_change_of_driver_typed_in_later_counts_from_when_it_was_said(pen, setup):
    hit = pen.filed(f"{LAMP} broken", stage="SS1")
    change = pen.entry("driver.changed", driver="p-vera")
    assert sheet([hit, change], setup)["by_driver"][0]["driver"] is None
    assert sheet([hit, {**change, "said_at": "2026-06-13T07:00:00Z"}], setup)["by_driver"][0]["driver"] == "p-vera"


def test_minutes_from_starts_and_ends_stand_beside_what_was_entered(pen, setup):
    hose = pen.filed(f"{HOSE} leaking", stage="SS1")
    one = {**pen.entry("job.started", HOSE, person="p-bodo"), "at": "2026-06-13T10:00:00+02:00"}
    two = {**pen.entry("job.started", HOSE, person="p-anni"), "at": "2026-06-13T10:02:00+02:00"}
    stop = {**pen.entry("job.stopped", HOSE, person="p-anni", ends=[two["id"]]), "at": "2026-06-13T08:06:30Z"}
    done = pen.finished(HOSE, hose, minutes=8, mechanics=2, ends=[one["id"], two["id"]])
    done["at"] = "2026-06-13T10:08:00+02:00"
    lines = {line["job"]: line for line in sheet([hose, one, two, stop, done], setup)["lines"]}
    actual = lines[HOSE]["actual"]
    assert actual["worked"] == [{"person": "p-bodo", "minutes": 8}, {"person": "p-anni", "minutes": 4.5}]
    assert (actual["minutes"], actual["labour"], actual["timed_by"]) == (8, "16.00", "entered")


def test_cost_a_stage_kilometre_leaves_out_what_the_car_did_not_drive(case, pen, setup):
    # 10 + 12.5 + 8 km; stopped on SS1, back on SS3.
    assert sheet(case.values(), setup)["stage_km"] == 30.5
    assert sheet(case.values(), setup)["per_stage_km"] == {"estimate": "5.59", "actual": "4.32"}
    stopped = pen.entry("car.retired", stage="SS1")
    assert sheet([*case.values(), stopped], setup)["stage_km"] == 10
    back = pen.entry("car.restarts", stage="SS3")
    assert sheet([*case.values(), stopped, back], setup)["stage_km"] == 18


def test_a_hit_falls_on_the_day_of_the_events_own_clock(pen, setup):
    late = {**pen.filed(f"{LAMP} broken", stage="SS1"), "at": "2026-06-13T23:30:00Z"}
    assert [row["day"] for row in sheet([late], setup)["by_day"]] == ["2026-06-14"]


# ---- as a table ----

# OWASP, CSV Injection: cells that begin with these are run as formulas.
DANGEROUS = ["=cmd|' /C calc'!A0", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1"]


@pytest.mark.parametrize("cell", DANGEROUS)
def test_a_cell_that_a_spreadsheet_would_run_is_defused(cell):
    assert defused(cell) == "'" + cell


@pytest.mark.parametrize("cell", ["", "wheel", "front-left/wheel", "0", "a=b", "'quoted", "ärmel"])
def test_a_harmless_cell_stays_as_it_is(cell):
    assert defused(cell) == cell


def test_the_table_has_a_row_for_each_line_and_plain_numbers(case, pen, setup):
    evil = pen.finished("front-end/badge", action="=HYPERLINK(1)", parts=[{"part": "@x", "qty": 1}])
    costs = sheet([*case.values(), evil], setup)
    table = costs_csv(convert(costs, Costs))
    assert b"\r\n" in table
    rows = list(csv.DictReader(io.StringIO(table.decode(), newline="")))
    assert len(rows) == len(costs["lines"])
    by_job = {row["job"]: row for row in rows}
    assert by_job["front-end/badge"]["action"] == "'=HYPERLINK(1)"
    hose = by_job[HOSE]
    assert [hose[name] for name in ("estimate_total", "actual_total", "currency")] == ["77.10", "50.55", "EUR"]
    assert by_job["front-end/bumper"]["actual_total"] == ""
    assert {row["rates"] for row in rows} == {setup.rates.version}
