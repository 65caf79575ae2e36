"""F37 and F38: killed, or without room, in the midst of what changes or copies all of a store at once."""

import random
import shutil
import time
from contextlib import ExitStack
from pathlib import Path

import pytest

from shuntbook.flow import backups

from . import disk
from .acts import COPY, DATA, DEEDS, NEW, NO_ROOM, Doing, entries_in, laid_out, make_base, state_of, wrong_with
from .tally import count, tries

SMALL_MIB = 24


@pytest.fixture(scope="module")
def base(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_base(tmp_path_factory.mktemp("acts"))


@pytest.fixture(scope="module")
def whole(base: Path) -> dict[str, bytes]:
    return entries_in(base / "whole" / DATA)


@pytest.fixture(scope="module")
def after(base: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[object, float]]:
    """By deed: the state that it leaves where nothing goes wrong, and the seconds that it takes."""
    found: dict[str, tuple[object, float]] = {}
    for deed in DEEDS:
        where = laid_out(base, deed, tmp_path_factory.mktemp("whole-run") / deed)
        doing = Doing(deed, where)
        began = time.monotonic()
        doing.begin()
        assert doing.end() == "done"
        found[deed] = state_of(deed, where), time.monotonic() - began
    return found


def look(deed: str, where: Path, held: dict[str, bytes], whole: dict[str, bytes], states: list[object]) -> None:
    """What stands is well, and the old state or the new one; a copy that is there is whole."""
    assert wrong_with(where / DATA, held, whole) == []
    if deed in ("backup", "restore"):
        assert state_of(deed, where) in states
    else:
        _all_old_or_new(state_of(deed, where), states)
    if deed == "backup" and (where / COPY).exists():
        shutil.rmtree(where / NEW, ignore_errors=True)
        backups.restore(where / COPY, where / NEW)
    if (where / NEW).exists() and any((where / NEW).iterdir()):
        assert wrong_with(where / NEW, whole, whole) == []


def _all_old_or_new(state: object, states: list[object]) -> None:
    old, new = states
    assert isinstance(state, dict)
    assert isinstance(old, dict)
    assert isinstance(new, dict)
    for event, version in state.items():
        assert version in (old.get(event), new.get(event)), "a version that nobody put"


def do_again(deed: str, where: Path, whole: dict[str, bytes], state: object) -> None:
    """Doing it again goes through, and leaves what it would have left at once."""
    if deed == "accept" and state_of(deed, where) == state:
        return  # it was through, and the same table is not accepted twice
    if deed == "put" and state_of(deed, where) == state:
        return
    for name in {"backup": [COPY, NEW], "restore": [NEW]}.get(deed, []):
        path = where / name
        if path.is_dir():
            shutil.rmtree(path)
        path.unlink(missing_ok=True)
    DEEDS[deed](where)
    assert state_of(deed, where) == state
    final = whole if deed == "import" else entries_in(where / DATA)
    assert entries_in(where / DATA) == final == whole
    assert wrong_with(where / DATA, whole, whole) == []


@pytest.mark.parametrize("deed", DEEDS)
def test_f37_killed_in_the_midst(
    deed: str, base: Path, whole: dict[str, bytes], after: dict[str, tuple[object, float]], tmp_path: Path
) -> None:
    chance, (new, took_s), times = random.Random(f"37 {deed}"), after[deed], tries(3, 60)
    killed = 0
    for _ in range(times):
        where = laid_out(base, deed, tmp_path / "here")
        held, old = entries_in(where / DATA), state_of(deed, where)
        doing = Doing(deed, where)
        doing.begin()
        time.sleep(chance.uniform(0, 1.05 * took_s))  # the moment of its death
        doing.process.kill()
        killed += doing.end() == "killed"
        look(deed, where, held, whole, [old, new])
        do_again(deed, where, whole, new)
    count("F37", "SIGKILL in a backup, restore, import, accept, set-up", tries=times, note=f"{deed}: {killed} midway")


@pytest.mark.parametrize("deed", DEEDS)
def test_f38_no_room_in_the_midst(
    deed: str, base: Path, whole: dict[str, bytes], after: dict[str, tuple[object, float]], tmp_path: Path
) -> None:
    chance, (new, _), times = random.Random(f"38 {deed}"), after[deed], tries(3, 40)
    refused = 0
    with ExitStack() as stack:
        small = tmp_path / "small"
        mounted = stack.enter_context(disk.small_disk(small, SMALL_MIB))
        for turn in range(times):
            where = laid_out(base, deed, small / "here")
            held, old = entries_in(where / DATA), state_of(deed, where)
            most = (where / "given.zip").stat().st_size
            room = 0 if turn == 0 else chance.randrange(most)
            said = without_room(deed, where, room, mounted)
            assert said in ("done", NO_ROOM)
            refused += said == NO_ROOM
            look(deed, where, held, whole, [old, new])
            assert said != "done" or state_of(deed, where) == new
            do_again(deed, where, whole, new)
    assert refused
    what = "no room (small file system)" if mounted else "no room (limit on the size of files)"
    count("F38", f"{what} in the same", tries=times, note=f"{deed}: {refused} refused")


def without_room(deed: str, where: Path, room: int, mounted: bool) -> str:
    """Do it where so many bytes are left; return what came of it."""
    doing = Doing(deed, where, None if mounted else room)
    with disk.filled_but(where.parent, room):
        doing.begin()
        return doing.end()
