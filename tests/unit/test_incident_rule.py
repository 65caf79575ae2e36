"""Which reports are of one hit: groupings, what is behind what, and neither order nor rings matter."""

from itertools import permutations

from making import Pen, parsed
from shuntbook.cost.incidents import incidents

A, B, C, D = "a", "b", "c", "d"
ALONE: dict[str, str | None] = dict.fromkeys((A, B, C, D))


def groups(entries: list, caused_by: dict[str, str | None]) -> dict[str, str]:
    return {report: incident.incident for report, incident in incidents(parsed(entries), caused_by).items()}


def test_a_report_that_nobody_grouped_is_a_hit_of_its_own() -> None:
    assert groups([], ALONE) == {A: A, B: B, C: C, D: D}


def test_what_is_behind_it_leads_to_the_first_of_a_chain() -> None:
    assert groups([], {**ALONE, C: B, B: A}) == {A: A, B: A, C: A, D: D}
    assert groups([], {**ALONE, B: "not here"})[B] == B


def test_a_ring_is_one_hit_whoever_is_asked_first() -> None:
    assert groups([], {A: B, B: C, C: A, D: B}) == dict.fromkeys((A, B, C, D), A)


def test_a_grouping_takes_its_reports_and_what_hangs_on_them(pen: Pen) -> None:
    group = pen.entry("incident.grouped", reports=[A, B], title="The bank", property_hit="fence")
    found = incidents(parsed([group]), {**ALONE, C: B})
    assert {report: found[report].incident for report in ALONE} == {**dict.fromkeys((A, B, C), group["id"]), D: D}
    assert (found[A].title, found[A].reports, found[A].grouping.property_hit) == ("The bank", (A, B, C), "fence")


def test_a_grouping_that_another_takes_over_is_gone(pen: Pen) -> None:
    old = pen.entry("incident.grouped", reports=[A, B])
    new = pen.entry("incident.grouped", reports=[B, C], replaces=[old["id"]])
    assert groups([old, new], ALONE) == {A: A, B: new["id"], C: new["id"], D: D}


def test_a_report_in_two_groupings_is_in_one_of_them_in_any_order(pen: Pen) -> None:
    made = [pen.entry("incident.grouped", reports=reports) for reports in ([A, B], [B, C], [C, D])]
    found = {tuple(sorted(groups(list(order), ALONE).items())) for order in permutations(made)}
    one, two, _ = (entry["id"] for entry in made)
    assert found == {((A, one), (B, one), (C, two), (D, made[2]["id"]))}
