"""Commands on a data folder that is not there: who only asks says so and makes none; and what a command imports."""

import subprocess
import sys

import pytest
from command import run

from phone import EVENT

OF_CAR = ("--event", EVENT, "--car", "42")
ASKING = {
    "backup": ("copy.zip",),
    "bundle export": ("log.bundle",),
    "check": (),
    "costs": ("--event", EVENT),
    "document": ("record", *OF_CAR, "--out", "record.pdf"),
    "observed": ("--event", EVENT),
    "plan": (*OF_CAR, "--service", "A"),
    "queue": OF_CAR,
    "rebuild": ("--event", EVENT),
    "release": OF_CAR,
    "season": (),
    "spares": ("--event", EVENT),
    "statement": OF_CAR,
    "team-plan": ("--event", EVENT, "--visit", "42=A"),
}


@pytest.mark.parametrize("there", [False, True], ids=["no folder", "an empty folder"])
@pytest.mark.parametrize("command", ASKING)
def test_who_only_asks_makes_no_store_and_says_which_folder_and_what_to_do(tmp_path, monkeypatch, command, there):
    monkeypatch.chdir(tmp_path)
    data = tmp_path / "nothing"
    if there:
        data.mkdir()
    done = run(*command.split(), *ASKING[command], data=data)
    assert (done.returncode, done.stdout) == (1, "")
    assert [word for word in (str(data), "--data", "shuntbook load") if word not in done.stderr] == []
    assert [path.name for path in tmp_path.rglob("*")] == (["nothing"] if there else [])


@pytest.mark.parametrize(
    ("make", "says"), [(None, "is not there"), ("file", "is not a folder"), ("folder", "holds no event.toml")]
)
def test_loading_what_is_no_event_folder_says_so_plainly_and_makes_no_store(tmp_path, make, says):
    folder = tmp_path / "event"
    if make == "file":
        folder.write_text("event")
    if make == "folder":
        folder.mkdir()
    done = run("load", folder, data=tmp_path / "data")
    assert done.returncode == 1
    (line,) = done.stderr.strip().splitlines()
    assert line.startswith(str(folder))
    assert says in line
    assert not (tmp_path / "data").exists()


def test_loading_a_folder_with_faults_makes_no_store_either(tmp_path):
    (tmp_path / "event").mkdir()
    (tmp_path / "event" / "event.toml").write_text('event = "x"')
    assert run("load", tmp_path / "event", data=tmp_path / "data").returncode == 1
    assert not (tmp_path / "data").exists()


def test_the_demo_names_no_folder_that_it_does_not_use():
    said = " ".join(run("demo", "--help").stdout.split())
    assert "SHUNTBOOK_DATA" not in said
    assert "default: a temporary one" in said


LOADED = """
import sys
from shuntbook.cli import main
sys.argv = ["shuntbook", *sys.argv[1:]]
try:
    main()
except SystemExit:
    pass
print(*sorted(set(sys.modules) & {HEAVY}), file=sys.stderr)
"""
HEAVY = {"cryptography", "flask", "granian", "numpy", "openpyxl", "ortools", "pandas", "sqlite3", "typst"}


@pytest.mark.parametrize(
    ("words", "needed"),
    [
        (("--version",), set()),
        (("rates", "check", "no-such-folder"), {"cryptography", "sqlite3"}),
        (("queue", *OF_CAR), {"sqlite3"}),
        (("backup", "copy.zip"), {"cryptography", "sqlite3"}),
    ],
    ids=["version", "rates", "queue", "backup"],
)
def test_a_command_imports_what_it_needs_and_no_solver_server_or_typesetter_besides(tmp_path, words, needed):
    line = [sys.executable, "-c", LOADED.replace("{HEAVY}", repr(HEAVY)), *words]
    if words[0] in ("queue", "backup"):
        line += ["--data", str(tmp_path / "nothing")]
    done = subprocess.run(line, capture_output=True, text=True, check=True, cwd=tmp_path)
    loaded = set(done.stderr.strip().splitlines()[-1].split()) if done.stderr.strip() else set()
    assert loaded & HEAVY <= needed
