"""What damage called for, and what to carry: the rule by hand, the stock by scipy."""

from decimal import Decimal

import pytest

import distributions
from making import Pen
from season_making import held
from shuntbook.commands.text_season import spares_text
from shuntbook.kit.errors import NotPossible
from shuntbook.season.demand import demand_of
from shuntbook.season.spares import Next, spares
from small_event import small_setup

HOSE, WHEEL, LAMP = "front-left/brake-hose", "front-left/wheel", "front-end/lamp"
AHEAD = Next(Decimal("61"), 1, 95)
"""Twice the small event's 30.5 km, one car."""


def calls(setup, *entries):
    return {part: [float(qty) for qty in pieces] for part, pieces in demand_of(held(setup, entries)).calls.items()}


def used(part: str, qty: float):
    return [{"part": part, "qty": qty}]


def test_an_open_job_calls_for_what_its_row_names(setup, pen):
    assert calls(setup, pen.filed(f"{HOSE} leaking", f"{WHEEL} bent")) == {"hose": [2], "rim": [1]}


def test_a_van_that_had_none_does_not_lower_what_was_called_for(setup, pen):
    filed = pen.filed(f"{HOSE} leaking")
    assert calls(setup, filed, pen.finished(HOSE, filed, parts=[])) == {"hose": [2]}


def test_what_the_repair_needed_beyond_the_row_was_called_for_too(setup, pen):
    filed = pen.filed(f"{LAMP} broken")
    fitted = [*used("lamp", 2), *used("grille", 1)]
    assert calls(setup, filed, pen.finished(LAMP, filed, parts=fitted)) == {"lamp": [2], "grille": [1]}


def test_a_patch_and_the_real_repair_of_the_same_damage_are_one_call(setup, pen):
    filed = pen.filed(f"{HOSE} leaking")
    patch = pen.finished(HOSE, filed, temporary=True, parts=used("tape", 1))
    real = pen.finished(HOSE, filed, parts=used("hose", 2))
    assert calls(setup, filed, patch, real) == {"hose": [2], "tape": [1]}


def test_the_same_damage_reported_twice_before_a_repair_is_one_call(setup, pen):
    assert calls(setup, pen.filed(f"{HOSE} leaking"), pen.filed(f"{HOSE} leaking")) == {"hose": [2]}


def test_damage_that_came_again_is_another_call(setup, pen):
    first, second = pen.filed(f"{HOSE} leaking"), pen.filed(f"{HOSE} leaking")
    fixed = [pen.finished(HOSE, first, parts=used("hose", 2)), pen.finished(HOSE, second, parts=used("hose", 2))]
    assert calls(setup, first, second, *fixed) == {"hose": [2, 2]}


def test_wear_and_what_was_there_at_the_hand_over_call_for_nothing(pen):
    rows = b"component,condition,action,minutes_best,minutes_likely,minutes_worst,"
    rows += b"mechanics,access,parts,must_do,value,wear\n"
    rows += b"lamp,broken,replace,1,1,1,1,,lamp,false,1,\ngrille,missing,replace,1,1,1,1,,grille,false,1,true\n"
    rows += b"wheel,worn,replace,1,1,1,1,,rim,false,1,\n"
    setup = small_setup(operations=rows)
    worn = [
        pen.filed(f"{WHEEL} worn"),
        pen.filed("front-end/grille missing"),
        pen.filed(f"{LAMP} broken", cause="wear"),
    ]
    assert calls(setup, *worn) == {}
    assert calls(setup, pen.filed(f"{LAMP} broken", where="hand-over")) == {}
    assert calls(setup, pen.filed(f"{LAMP} broken", cause="stone")) == {"lamp": [1]}


def test_exposure_is_timed_km_by_the_cars_that_the_log_speaks_of(setup, pen):
    one = [pen.filed(f"{LAMP} broken")]
    assert demand_of(held(setup, one)).exposure == Decimal("30.5")
    both = [*one, pen.entry("stage.nothing_seen", car="42", stage="SS1")]
    assert demand_of(held(setup, both)).exposure == 61


def row(answer, part):
    return next(one for one in answer.parts if one.part == part)


def stocks(answer, part):
    return [one.stock for one in row(answer, part).covers]


def lamps(pen: Pen, setup, *counts: int):
    for count in counts:
        # An event that called for no lamp has a log all the same. Each lamp is fixed before the next one breaks.
        told = [pen.entry("stage.nothing_seen", stage="SS1")]
        for _ in range(count):
            told.append(pen.filed(f"{LAMP} broken"))
            told.append(pen.finished(LAMP, told[-1], parts=used("lamp", 1)))
        yield held(setup, told)


def test_few_events_are_reckoned_with_an_uncertain_rate(setup, pen):
    """Three lamps at three events of 30.5 car-km, 61 ahead: shape 3.5, mean 3.5 × 61 ÷ 91.5 (scipy)."""
    answer = spares(list(lamps(pen, setup, 1, 2, 0)), setup, None, AHEAD)
    assert (answer.model, answer.events, answer.car_km) == ("gamma-poisson", 3, 91.5)
    assert stocks(answer, "lamp") == [int(distributions.nbinom.ppf(share, 3.5, 0.6)) for share in (0.9, 0.95, 0.99)]
    assert row(answer, "lamp").expected == 2.33


@pytest.mark.parametrize("counts", [(9,), (5, 4)])
def test_below_three_events_parts_are_counted_and_no_stock_is_advised(setup, pen, counts):
    answer = spares(list(lamps(pen, setup, *counts)), setup, None, AHEAD)
    assert (answer.model, answer.events) == ("counts", len(counts))
    lamp = row(answer, "lamp")
    assert (lamp.calls, lamp.pieces, lamp.covers) == (9, 9, [])
    assert (answer.totals, answer.shopping.items) == ([], [])
    text = spares_text(answer)
    assert "lamp: 9 times, 9 pieces; van" in text
    assert "Counts only" in text
    assert "To buy" not in text


def test_eight_events_are_taken_at_their_rate(setup, pen):
    """Eight lamps at eight events, twice the km ahead: Poisson of mean 2 (scipy)."""
    answer = spares(list(lamps(pen, setup, 1, 1, 0, 2, 1, 1, 2, 0)), setup, None, AHEAD)
    assert (answer.model, answer.events) == ("poisson", 8)
    assert (
        stocks(answer, "lamp") == [int(distributions.poisson.ppf(share, 2)) for share in (0.9, 0.95, 0.99)] == [4, 5, 6]
    )
    assert not row(answer, "lamp").bunched


def test_parts_that_come_in_bunches_are_marked(setup, pen):
    """Eight lamps at one of eight events: index of dispersion ((8−1)² + 7·1²)/7 = 8."""
    answer = spares(list(lamps(pen, setup, 0, 0, 8, 0, 0, 0, 0, 0)), setup, None, AHEAD)
    assert row(answer, "lamp").bunched


def test_the_shopping_list_is_the_stock_less_what_the_van_still_holds(setup, pen):
    """The van was loaded with 1 lamp and 3 hoses and used 1 lamp and, here, 4 hoses: never below 0."""
    filed = pen.filed(f"{LAMP} broken")
    hose = pen.filed(f"{HOSE} leaking")
    own = held(
        setup,
        [
            filed,
            hose,
            pen.finished(LAMP, filed, parts=used("lamp", 1)),
            pen.finished(HOSE, hose, parts=used("hose", 4)),
        ],
    )
    answer = spares([own, *lamps(pen, setup, 1, 1, 1, 0, 1, 1, 1)], setup, own, AHEAD)
    assert (row(answer, "lamp").van, row(answer, "hose").van) == (0, 0)
    lamp = row(answer, "lamp").covers[1]
    # Seven lamps at eight events, twice the km: Poisson of mean 1.75.
    assert (lamp.stock, lamp.buy) == (int(distributions.poisson.ppf(0.95, 1.75)),) * 2
    assert lamp.buy_cost == f"{4 * 80.25:.2f}"
    full = spares([own, *lamps(pen, setup, 1, 1, 1, 0, 1, 1, 1)], setup, None, AHEAD)
    assert row(full, "lamp").covers[1].buy == lamp.stock - 1
    bought = {item.part: item.qty for item in answer.shopping.items}
    assert bought == {one.part: one.covers[1].buy for one in answer.parts if one.covers[1].buy}
    costs = [Decimal(item.cost or 0) for item in answer.shopping.items]
    assert answer.shopping.cost == str(sum(costs)) == answer.totals[1].buy_cost


def test_a_part_without_a_price_is_carried_without_a_cost(setup, pen):
    filed = pen.filed(f"{LAMP} broken")
    told = [filed, pen.finished(LAMP, filed, parts=used("unknown-clip", 1))]
    quiet = list(lamps(pen, setup, 1, 1))
    clip = row(spares([held(setup, told), *quiet], setup, None, AHEAD), "unknown-clip")
    assert (clip.unit_cost, clip.covers[0].cost, clip.covers[0].stock > 0) == (None, None, True)


def test_nothing_known_and_too_much_asked_are_refused_in_words(setup, pen):
    with pytest.raises(NotPossible, match="no event held here"):
        spares([held(setup, [])], setup, None, AHEAD)
    with pytest.raises(NotPossible, match="too far beyond"):
        spares(list(lamps(pen, setup, 9)), setup, None, Next(Decimal(5000), 50, 95))
