"""Which car map and check lists an event keeps, in files alone."""

from shuntbook.setup.defaults import first_looks, first_map, keeping, with_first, without_first
from shuntbook.setup.folder import default_car_map, read_setup
from shuntbook.setup.looks import ListedCheck
from small_event import EVENT, small_files

NO_MAP = small_files(car_map=None)
BRAKES = b'\n# our own brakes\n[[looks]]\ngroup = "brake"\ncheck = "Dry"\n'


def test_files_of_the_first_release_say_its_map_and_lists_and_keep_their_words() -> None:
    files = with_first({**NO_MAP, "event.toml": EVENT + BRAKES})
    setup = read_setup(files)
    assert files["car_map.toml"] == first_map()
    assert setup.event.looks == {**first_looks(), "brake": (ListedCheck("Dry"),)}
    assert b"# our own brakes" in files["event.toml"]


def test_an_own_map_stays() -> None:
    assert with_first(small_files())["car_map.toml"] == small_files()["car_map.toml"]


def test_files_that_follow_bring_along_what_the_event_began_with() -> None:
    held = with_first(NO_MAP)
    assert keeping(held, NO_MAP) == held
    own = {**NO_MAP, "event.toml": EVENT + BRAKES, "car_map.toml": b"[zones.a]\n"}
    followed = keeping(held, own)
    assert followed["car_map.toml"] == b"[zones.a]\n"
    assert followed["event.toml"].count(b'group = "brake"') == 1
    assert followed["event.toml"].count(b'group = "cage"') == len(first_looks()["cage"])


def test_nothing_is_brought_along_where_the_event_has_the_lists_of_today() -> None:
    assert keeping(NO_MAP, NO_MAP) == NO_MAP
    assert keeping(small_files(), NO_MAP) == NO_MAP


def test_what_can_not_be_read_is_left_to_whoever_names_its_faults() -> None:
    broken = {**NO_MAP, "event.toml": b"event = \n"}
    assert keeping(with_first(NO_MAP), broken) == broken


def test_without_them_todays_hold_and_own_lists_stay() -> None:
    files = without_first(with_first({**NO_MAP, "event.toml": EVENT + BRAKES}))
    setup = read_setup(files)
    assert setup.car_map.symptoms == default_car_map().symptoms
    assert setup.event.looks == {"brake": (ListedCheck("Dry"),)}
    assert without_first(small_files()) == small_files()


def test_a_list_that_a_team_changed_is_its_own() -> None:
    files = with_first(NO_MAP)
    changed = {**files, "event.toml": files["event.toml"].replace(b"Bolts tight and secured", b"Every bolt by torque")}
    assert list(read_setup(without_first(changed)).event.looks) == ["cage"]
