"""Zones of a car map that are across from each other, and words that name no zone."""

import pytest

from shuntbook.kit.errors import BadSetup
from shuntbook.setup.folder import read_setup
from small_event import small_files, small_setup

MAP = small_files()["car_map.toml"].decode()


def paired(left: str, right: str) -> bytes:
    text = MAP.replace("[zones.front-left]\n", f"[zones.front-left]\n{left}\n")
    return text.replace("[zones.front-right]\n", f"[zones.front-right]\n{right}\n").encode()


def test_two_zones_across_from_each_other_are_read() -> None:
    setup = small_setup(car_map=paired('across = "front-right"', 'across = "front-left"'))
    pairs = {row["zone"]: row["across"] for row in setup.rows["zones"]}
    assert (pairs["front-left"], pairs["front-right"], pairs["front-end"]) == ("front-right", "front-left", None)


@pytest.mark.parametrize(
    ("left", "right", "what"),
    [
        ('across = "front-right"', "", "let the two name each other"),
        ('across = "front-left"', "", "let the two name each other"),
        ('across = "front-rihgt"', "", "did you mean front-right?"),
    ],
)
def test_across_is_mutual_and_names_a_zone(left: str, right: str, what: str) -> None:
    with pytest.raises(BadSetup) as caught:
        small_setup(car_map=paired(left, right))
    (fault,) = caught.value.faults
    assert fault.column == "zones.front-left.across"
    assert what in fault.what
    assert MAP.splitlines()[fault.row - 2] == "[zones.front-left]"


@pytest.mark.parametrize("name", ["here", "across"])
def test_a_zone_is_not_named_by_a_word_that_rules_use(name: str) -> None:
    text = (MAP + f'\n[zones.{name}]\nkind = "end"\ncomponents = []\n').encode()
    with pytest.raises(BadSetup, match="names no zone"):
        small_setup(car_map=text)
    stored = read_setup({**small_files(), "car_map.toml": text}, stored=True)
    assert name in stored.car_map.zones
