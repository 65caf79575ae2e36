"""The lock of a data folder: one server to a folder, told of by name, free as soon as its holder ends."""

import subprocess
import sys
from pathlib import Path

import pytest

from shuntbook.kit.errors import NotAllowed, StoreUnavailable
from shuntbook.store.single_server import FILE, alone

HOLD = """
import sys
from pathlib import Path
from shuntbook.store.single_server import alone
with alone(Path(sys.argv[1]), "port 1 of there"):
    print("held", flush=True)
    sys.stdin.read()
"""


def test_a_folder_that_is_served_is_refused_with_its_name_and_the_other_process(tmp_path: Path) -> None:
    line = [sys.executable, "-c", HOLD, str(tmp_path / "data")]
    with subprocess.Popen(line, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == b"held\n"
        with pytest.raises(NotAllowed) as refused, alone(tmp_path / "data", "port 2 of here"):
            pass
        assert all(word in str(refused.value) for word in (str(tmp_path), str(other.pid), "port 1 of there", "--data"))
        # Not reaped, so that its number still names something: it holds nothing all the same.
        other.kill()
        with alone(tmp_path / "data", "port 2 of here"):
            assert (tmp_path / "data" / FILE).read_text().endswith("port 2 of here")


def test_it_is_free_again_after_the_block_and_another_folder_always_is(tmp_path: Path) -> None:
    with alone(tmp_path, "here"), alone(tmp_path / "other", "here"), pytest.raises(NotAllowed), alone(tmp_path, "here"):
        pass
    with alone(tmp_path, "here"):
        pass


def test_where_nothing_can_be_written_it_says_that_nothing_was_stored(tmp_path: Path) -> None:
    (tmp_path / "data").write_text("a file in the folder's place")
    with pytest.raises(StoreUnavailable, match="Nothing was stored"), alone(tmp_path / "data", "here"):
        pass
