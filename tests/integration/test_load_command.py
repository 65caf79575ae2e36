"""`shuntbook load`: a good folder once and again, bad ones with every fault and nothing changed."""

import json
import shutil
from pathlib import Path

import pytest
from command import printed, run, run_process

from making import raw
from phone import EVENT, NOW
from sample_event import ENTRIES
from shuntbook.flow import answers
from shuntbook.flow.load import load, setup_files
from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import BadSetup
from shuntbook.report.attached import Attached
from shuntbook.serving import sample_folder
from shuntbook.store import keys, photos
from shuntbook.store.database import FILE, Store
from signer import Signer
from warmed import Forked


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The sample event folder, to be spoilt."""
    return Path(shutil.copytree(sample_folder(), tmp_path / "event"))


def change(file: Path, old: str, new: str) -> None:
    text = file.read_text()
    assert old in text
    file.write_text(text.replace(old, new, 1))


def hashes(store: Store) -> list[str]:
    return [answers.queue(store, EVENT, car).hash for car in ("41", "42")]


def test_a_good_folder_is_loaded_and_loading_it_again_changes_nothing(tmp_path):
    data = tmp_path / "data"
    process = run_process("load", sample_folder(), "--json", data=data)
    assert (process.returncode, process.stderr) == (0, "")
    first = json.loads(process.stdout)
    before = hashes(Store(data))
    again = printed("load", sample_folder(), data=data)
    entries = len(sample_folder().joinpath("entries.jsonl").read_text().splitlines())
    assert first == {"event": EVENT, "new": entries, "held": 0, "photos": 6}
    assert again == {"event": EVENT, "new": 0, "held": entries, "photos": 6}
    assert hashes(Store(data)) == before


def test_a_bad_folder_names_every_fault_on_stderr_and_changes_nothing(folder, data_folder):
    before = hashes(Store(data_folder))
    change(folder / "event.toml", 'timezone = "Europe/Vienna"', 'timezone = "Nowhere"')
    change(folder / "rates" / "parts.csv", "210.00", "210.001")
    change(folder / "van.csv", "part,loaded", "part,aboard")
    change(folder / "entries.jsonl", '"v":1', '"v":3')
    photo = next((folder / "photos").iterdir())
    photo.write_bytes(photo.read_bytes()[:-9])
    done = run("load", folder, data=data_folder)
    assert (done.returncode, done.stdout) == (1, "")
    for sentence in (
        "event.toml, row 4, timezone: ",
        "rates/parts.csv, row 2, unit_cost: ",
        "van.csv, row 1, aboard: unknown column",
        "van.csv, row 1, loaded: this column is missing",
        "entries.jsonl, row 1, v: unknown-version: ",
        f"photos/{photo.name}: its SHA-256 is ",
        "6 faults; nothing was changed",
    ):
        assert sentence in done.stderr
    assert "Traceback" not in done.stderr
    assert hashes(Store(data_folder)) == before


def test_a_bad_folder_leaves_a_new_store_empty(folder, tmp_path):
    change(folder / "entries.jsonl", '"v":1', '"v":3')
    assert run("load", folder, data=tmp_path / "new").returncode == 1
    store = Store(tmp_path / "new")
    for table in ("entry", "event", "photo", "job", "set_aside"):
        assert store.db.execute(f"SELECT count(*) FROM {table}").fetchone() == (0,)


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (("load",), 2, "Missing argument"),
        (("load", "no-such-folder"), 1, "is not there; name the folder that holds event.toml"),
        (("nonsense",), 2, "No such command"),
        (("queue", "--event", EVENT), 2, "Missing option '--car'"),
        (("queue", "--event", EVENT, "--car", "99"), 1, "its cars are 41, 42"),
        (("release", "--event", "none", "--car", "41"), 1, "(held: thornquell-2026)"),
        (("costs", "--event", EVENT, "--rates", "0"), 1, "never had the rate table 0"),
        (("invite", "--person", "p-nobody"), 1, "fix event.toml"),
    ],
)
def test_wrong_usage_leaves_with_2_and_a_refusal_with_1_and_a_sentence(data_folder, words, status, said):
    done = run(*words, data=data_folder)
    assert done.returncode == status
    assert said in done.stderr
    assert done.stdout == ""
    assert "Traceback" not in done.stderr


def test_a_process_leaves_with_the_same_status(data_folder):
    # By the installed command in the first test above.
    for status, words in enumerate((["release", "--car", "41"], ["queue", "--car", "99"], ["nonsense"])):
        assert Forked(*words, "--event", EVENT, "--data", data_folder).wait(60) == status


# ---- faults of entries.jsonl and photos/, without a process for each ----


def faults(store: Store, folder: Path) -> list[tuple[str, int, str]]:
    with pytest.raises(BadSetup) as caught:
        load(store, folder, NOW)
    return [(fault.file, fault.row, fault.column) for fault in caught.value.faults]


def test_each_bad_line_is_named_with_its_row_and_field(store, folder, pen):
    bad = [
        "{",
        json.dumps({**pen.filed(), "kind": "report.sung"}),
        "",
        json.dumps({**pen.filed(), "seq": 0}),
        json.dumps(pen.entry("job.started", "no-job")),
        json.dumps({**pen.filed(), "note": "x" * 17_000}),
    ]
    with (folder / "entries.jsonl").open("a") as file:
        file.write("\n".join(bad) + "\n")
    assert faults(store, folder) == [
        ("entries.jsonl", ENTRIES + 1, ""),
        ("entries.jsonl", ENTRIES + 2, "kind"),
        ("entries.jsonl", ENTRIES + 4, "seq"),
        ("entries.jsonl", ENTRIES + 5, "subject"),
        ("entries.jsonl", ENTRIES + 6, ""),
    ]


def test_an_id_twice_with_other_content_is_a_fault_and_with_the_same_is_none(store, folder):
    lines = (folder / "entries.jsonl").read_text().splitlines()
    (folder / "entries.jsonl").write_text("\n".join([*lines, lines[0]]))
    assert load(store, folder, NOW).new == len(lines)
    changed = lines[0].replace('"seq":1', '"seq":9')
    (folder / "entries.jsonl").write_text("\n".join([*lines, changed]))
    assert faults(store, folder) == [("entries.jsonl", ENTRIES + 1, "id")]


def test_an_entry_that_the_store_holds_with_other_content_is_a_fault(sample_store, folder):
    before = hashes(sample_store)
    change(folder / "entries.jsonl", "Scratch, two hands long.", "Scratch, three hands long.")
    assert faults(sample_store, folder) == [("entries.jsonl", 1, "id")]
    assert hashes(sample_store) == before


def test_what_a_known_device_did_not_sign_or_wrote_after_it_was_blocked_is_a_fault(signed_store, signed_folder, pen):
    toma, blocked = Signer(), Signer()
    with signed_store.write() as db:
        keys.put(db, keys.DeviceKey("d-toma", "p-toma", toma.jwk, None))
        keys.put(db, keys.DeviceKey("d-blocked", "p-toma", blocked.jwk, NOW, 1))
    good = toma.sign(pen.filed("front-left/wheel bent", device="d-toma"))
    changed = {**toma.sign(pen.filed("front-left/hub bent", device="d-toma")), "car": "42"}
    before = blocked.sign(pen.filed("front-left/wheel bent", device="d-blocked"))
    later = blocked.sign(pen.filed("front-left/hub bent", device="d-blocked"))
    # What nothing is known of counts: loading is the act of whoever owns the machine.
    unsigned, unknown = pen.filed(device="d-toma"), toma.sign(pen.filed(device="d-new"))
    believed = [good, before, unsigned, unknown]

    def write(*entries):
        (signed_folder / "entries.jsonl").write_bytes(b"\n".join(map(raw, entries)))

    write(*believed, changed, later)
    assert faults(signed_store, signed_folder) == [("entries.jsonl", 5, "sig"), ("entries.jsonl", 6, "device")]
    assert signed_store.db.execute("SELECT count(*) FROM entry").fetchone() == (0,)
    write(*believed)
    assert load(signed_store, signed_folder, NOW).new == len(believed)
    with signed_store.write() as db:
        keys.shut_out(db, "d-toma", NOW)
    # What the log holds stays, whatever is known of its device since.
    assert load(signed_store, signed_folder, NOW).held == len(believed)


def test_what_a_system_leaves_in_a_folder_is_no_file_of_it(store, folder):
    for name in ("photos/.DS_Store", "rates/._operations.csv", "rates/.hidden.toml"):
        (folder / name).write_bytes(b"\x00\x05\x16\x07")
    assert load(store, folder, NOW).new > 0
    assert not [name for name in setup_files(folder) if name.split("/")[-1].startswith(".")]


def test_lines_with_bom_and_crlf_are_the_same_entries(store, folder, sample_store):
    file = folder / "entries.jsonl"
    file.write_bytes(b"\xef\xbb\xbf" + file.read_bytes().replace(b"\n", b"\r\n"))
    load(store, folder, NOW)
    assert hashes(store) == hashes(sample_store)


@pytest.mark.parametrize("name", ["holiday.jpg", "ab" * 32 + ".jpg"])
def test_a_photo_under_another_name_is_a_fault(store, folder, name):
    photo = next((folder / "photos").iterdir())
    photo.rename(folder / "photos" / name)
    assert faults(store, folder) == [(f"photos/{name}", 0, "")]


def test_a_folder_where_a_file_belongs_is_a_fault_beside_the_others(folder, data_folder):
    for name in ("van.csv", "rates/parts.csv", "entries.jsonl"):
        (folder / name).unlink()
        (folder / name).mkdir()
    (folder / "photos" / "friday").mkdir()
    done = run("load", folder, data=data_folder)
    assert (done.returncode, done.stdout) == (1, "")
    for name in ("van.csv", "rates/parts.csv", "entries.jsonl", "photos/friday"):
        assert f"{name}: can't be read: " in done.stderr
    assert "4 faults; nothing was changed" in done.stderr
    checked = run("rates", "check", folder / "rates")
    assert (checked.returncode, checked.stderr.splitlines()[0]) == (
        1,
        "parts.csv: can't be read: Is a directory; a file that you may read has to lie here",
    )


def test_voice_notes_come_from_a_folder_of_their_own_and_a_damaged_one_is_a_fault(store, folder):
    sound = b"OggS" + bytes(300)  # an Ogg page begins so: RFC 3533, 6
    note = folder / "voices" / f"{sha256(sound)}.ogg"
    note.parent.mkdir()
    note.write_bytes(sound)
    assert load(store, folder, NOW).photos == 7
    assert photos.read(store, sha256(sound)) == sound
    assert photos.find(store.db, sha256(sound)) == Attached("audio/ogg")
    note.write_bytes(sound[:-1])
    text = b"no sound at all"
    (folder / "voices" / sha256(text)).write_bytes(text)
    assert sorted(faults(store, folder)) == sorted([(f"voices/{note.name}", 0, ""), (f"voices/{sha256(text)}", 0, "")])


def test_a_folder_with_no_entries_and_no_photos_is_a_set_up(store, folder):
    (folder / "entries.jsonl").unlink()
    shutil.rmtree(folder / "photos")
    done = load(store, folder, NOW)
    assert (done.new, done.held, done.photos) == (0, 0, 0)
    assert answers.queue(store, EVENT, "41").jobs == []


def test_a_changed_set_up_is_put_in_force_by_loading_again(sample_store, folder):
    change(folder / "rates" / "rates.toml", "labour_per_hour = 58", "labour_per_hour = 61")
    before = answers.queue(sample_store, EVENT, "41")
    load(sample_store, folder, NOW)
    after = answers.queue(sample_store, EVENT, "41")
    assert after.rates != before.rates
    assert after.entries == before.entries


def test_a_file_where_the_data_folder_should_be_is_refused(tmp_path):
    (tmp_path / "file").write_text("")
    assert run("check", data=tmp_path / "file").returncode == 2
    assert not (tmp_path / FILE).exists()


def test_what_is_taken_and_deserves_to_be_told_is_told_beside_the_answer(tmp_path):
    folder = tmp_path / "event"
    shutil.copytree(sample_folder(), folder)
    event = folder / "event.toml"
    event.write_text(event.read_text().replace("km = 9.4\n", 'km = 9.4\nsurfase = "gravel"\n', 1))
    process = run_process("load", folder, "--json", data=tmp_path / "data")
    assert process.returncode == 0
    assert json.loads(process.stdout)["event"] == EVENT
    assert process.stderr.startswith("Taken, but: event.toml, row ")
    assert "'surfase' is not a key of stages" in process.stderr


@pytest.mark.parametrize(
    ("was", "slip", "asked"),
    [
        (
            "excess = 1500.00",
            "exces = 1500.00",
            "agreements.exces: 'exces' is not a key of agreements; did you mean excess?",
        ),
        ('excluded = ["mud-flap",', 'excluded = ["mudflap",', "did you mean mud-flap?"),
        ("cap = 4000.00", "cap = 1234567890123", "more than 12 digits before the point"),
    ],
)
def test_a_slip_in_an_agreement_is_a_fault_of_a_folder_and_nothing_of_it_is_held(tmp_path, was, slip, asked):
    folder = tmp_path / "event"
    shutil.copytree(sample_folder(), folder)
    event = folder / "event.toml"
    assert was in event.read_text()
    event.write_text(event.read_text().replace(was, slip, 1))
    process = run_process("load", folder, data=tmp_path / "data")
    assert process.returncode == 1
    assert asked in process.stderr
    assert "event.toml" in process.stderr
    assert run("queue", "--event", EVENT, "--car", "41", data=tmp_path / "data").returncode != 0
