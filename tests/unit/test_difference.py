"""What changes between two set-ups, told by what it means and not by its bytes."""

from shuntbook.setup.difference import difference, tables_of
from small_event import EVENT, small_files, small_setup


def changes(before: bytes, after: bytes) -> list[tuple[str, str, str]]:
    found = difference(small_setup(event=before), small_setup(event=after))
    return [(one["table"], one["key"], one["change"]) for one in found]


def test_the_same_files_change_nothing_and_neither_do_comments_or_spaces():
    assert changes(EVENT, EVENT) == []
    assert changes(EVENT, b"# a comment\n" + EVENT.replace(b"km = 12.5", b"km   =   12.50 # long")) == []


def test_a_changed_cell_is_named_with_what_it_was():
    after = EVENT.replace(b"km = 12.5", b"km = 13")
    (change,) = difference(small_setup(), small_setup(event=after))
    assert (change["table"], change["change"]) == ("stages", "changed")
    assert change["cells"] == [{"field": "km", "before": "12.5", "after": "13"}]


def test_a_row_that_came_and_a_row_that_went():
    after = EVENT + b'\n[[resources]]\nresource = "jack"\ncount = 2\n'
    assert changes(EVENT, after) == [("resources", "jack", "added")]
    assert changes(after, EVENT) == [("resources", "jack", "removed")]


def test_an_itinerary_in_another_order_is_a_change():
    first, second = (f'[[stages]]\nstage = "X{n}"\nkm = {n}\n'.encode() for n in (1, 2))
    assert changes(EVENT + b"\n" + first + second, EVENT + b"\n" + second + first) == [("stages", "", "moved")]


def test_against_nothing_everything_is_new():
    found = difference(None, small_setup())
    assert {one["change"] for one in found} == {"added"}
    tables = tables_of(small_setup())
    assert len(found) == sum(len(rows) for rows in tables.values())


def test_a_price_and_the_van_stock_are_told_as_their_files_have_them():
    files = small_files()
    name = next(name for name in files if name.endswith("parts.csv"))
    row = files[name].decode().splitlines()[1]
    part, _, cost = row.split(",")[:3]
    dearer = files[name].decode().replace(row, row.replace(cost, "999.50"), 1).encode()
    found = difference(small_setup(), small_setup(**{"parts": dearer}))
    assert [(one["table"], one["key"]) for one in found] == [("parts", part)]
    assert found[0]["cells"][0]["after"] == "999.5"


def test_groups_and_conditions_whose_order_says_nothing_may_stand_in_any():
    map_text = small_files()["car_map.toml"].replace(
        b'safety_groups = ["restraint"]', b'safety_groups = ["fuel", "restraint"]'
    )
    other = map_text.replace(b'["fuel", "restraint"]', b'["restraint", "fuel"]')
    assert other != map_text
    assert difference(small_setup(car_map=map_text), small_setup(car_map=other)) == []
