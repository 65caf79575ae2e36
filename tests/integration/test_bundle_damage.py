"""A bundle that is damaged, cut or tricky is refused whole, says what is wrong, and changes nothing.

The names of the tricks are those of the zip format's own text, PKWARE APPNOTE 6.3.10.
"""

import random
import struct
import zipfile
from pathlib import Path

import pytest
from command import run

from bundles import Files, digest_of, lines, manifest_of, packed, unpacked, with_manifest
from making import Pen
from phone import EVENT, NOW
from sample_event import ENTRIES
from shuntbook.flow.bundle_export import export_bundle
from shuntbook.flow.bundle_import import Choice, import_bundle
from shuntbook.serving import sample_folder
from shuntbook.store.database import Store
from shuntbook.wire import bundle_check
from shuntbook.wire.bundle_file import BadBundle

FLIPS = 400
CUTS = 60


@pytest.fixture
def bundle(sample_store: Store, tmp_path: Path) -> Path:
    """A bundle of the whole sample event."""
    export_bundle(sample_store, tmp_path / "event.zip", None, NOW)
    return tmp_path / "event.zip"


@pytest.fixture
def files(bundle: Path) -> Files:
    """What is in it, without the manifest."""
    return {name: data for name, data in unpacked(bundle).items() if not name.startswith("manifest")}


def refused(store: Store, path: Path) -> str:
    """Return why a bundle was refused; the store must be as it was before."""
    before = state(store)
    with pytest.raises(BadBundle) as caught:
        import_bundle(store, path, Choice(setup=True, trust=True), NOW)
    assert state(store) == before
    return str(caught.value)


def state(store: Store) -> list[object]:
    tables = ("entry", "set_aside", "event", "setup", "photo", "trusted", "device_key")
    counts = [store.db.conn.execute(f"SELECT count(*) FROM {table}").fetchone()[0] for table in tables]
    return [*counts, sorted(store.folder.rglob("*")), sorted(store.folder.parent.iterdir())]


def test_one_changed_byte_anywhere_is_refused(bundle: Path, store: Store, tmp_path: Path) -> None:
    whole, chance = bundle.read_bytes(), random.Random(26)
    # Photos are most of the file: the places are drawn from its last tenth, where the headers are, as often.
    places = [chance.randrange(len(whole)) for _ in range(FLIPS // 2)]
    places += [chance.randrange(len(whole) * 9 // 10, len(whole)) for _ in range(FLIPS // 2)]
    damaged = tmp_path / "damaged.zip"
    for place in places:
        data = bytearray(whole)
        data[place] ^= chance.randrange(1, 256)
        damaged.write_bytes(data)
        with pytest.raises(BadBundle, match="damaged"):
            bundle_check.Bundle(damaged)
    refused(store, damaged)


def test_a_bundle_that_was_cut_anywhere_is_refused(bundle: Path, store: Store, tmp_path: Path) -> None:
    whole, chance = bundle.read_bytes(), random.Random(27)
    cut = tmp_path / "cut.zip"
    for length in [0, 1, 21, 22, len(whole) - 1, len(whole) - 71, *(chance.randrange(len(whole)) for _ in range(CUTS))]:
        cut.write_bytes(whole[:length])
        assert "damaged" in refused(store, cut)
    cut.write_bytes(whole + b"\0")
    assert "damaged" in refused(store, cut)


def test_a_changed_file_is_named(files: Files, store: Store, tmp_path: Path) -> None:
    manifest = with_manifest(files)
    name = next(one for one in files if one.startswith("photos/"))
    changed = {**manifest, name: files[name][:-1], "entries.jsonl": files["entries.jsonl"].replace(b"bent", b"flat", 1)}
    said = refused(store, packed(tmp_path / "b.zip", changed))
    assert f"{name}: its SHA-256 is" in said
    assert "entries.jsonl: its SHA-256 is" in said
    assert "Nothing of it was taken" in said


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda files: {**files, "manifest.sha256": b"0" * 64}, "manifest.json: its SHA-256 is not"),
        (lambda files: without(files, "manifest.json"), "manifest.json: is missing"),
        (lambda files: without(files, "manifest.sha256"), "manifest.sha256: is missing"),
        (lambda files: without(files, "devices.json"), "devices.json: is in the manifest and missing"),
        (lambda files: {**files, "photos/" + "a" * 64: b"x"}, "is not in the manifest"),
        (lambda files: sealed(files, entries=1), f"{ENTRIES} entries, the manifest says 1"),
        (lambda files: sealed(files, v=2), "reads shuntbook-bundle 1"),
        (lambda files: sealed(files, format="other"), "reads shuntbook-bundle 1"),
        (lambda files: sealed(files, files=[]), "is not in the manifest"),
        (lambda files: sealed(files, files="all"), "manifest.json: Expected"),
        (lambda files: {**files, **hashed(b"[1")}, "manifest.json: "),
        (lambda files: sealed({**files, "devices.json": b"{}"}), "devices.json: Expected"),
        (lambda files: sealed({**files, "devices.json": BAD_KEY}), "devices.json: "),
        (lambda files: sealed({**files, "trusted.json": b"[1]"}), "trusted.json: Expected"),
        (lambda files: sealed({**files, "set_aside.jsonl": b"%%%"}), "set_aside.jsonl: "),
        (lambda files: sealed({**files, "photos/" + digest_of(b"no picture"): b"no picture"}), "not a JPEG"),
    ],
)
def test_what_does_not_fit_its_manifest_or_its_form_is_named(spoil, said, files, store, tmp_path) -> None:
    assert said in refused(store, packed(tmp_path / "b.zip", spoil(with_manifest(files))))


BAD_KEY: bytes = b'[{"device": "d-1", "person": "p-toma", "key": {"kty": "EC", "crv": "P-256", "x": "AA", "y": "AA"}}]'


def without(files: Files, name: str) -> Files:
    return {one: data for one, data in files.items() if one != name}


def hashed(manifest: bytes) -> Files:
    return {"manifest.json": manifest, "manifest.sha256": digest_of(manifest).encode()}


def sealed(whole: Files, /, **changed: object) -> Files:
    inner = {name: data for name, data in whole.items() if not name.startswith("manifest")}
    return {**inner, **hashed(manifest_of(inner, **changed))}


@pytest.mark.parametrize(
    "name",
    [
        "../escaped.txt",
        "/absolute.txt",
        "photos/../../escaped",
        "photos/" + "A" * 64,
        "photos/" + "a" * 63,
        "photos/" + "a" * 64 + ".jpg",
        "setup/../event.toml",
        f"setup/{EVENT}/../../event.toml",
        f"setup/{EVENT}/rates/../event.toml",
        f"setup/{EVENT}/run.sh",
        "setup/%2e%2e/event.toml",
        "setup/event.toml",
        "C:\\windows\\win.ini",
        "photos\\" + "a" * 64,
        "readme.txt",
        "photos/",
        "entries.jsonl/",
    ],
)
def test_no_name_leads_anywhere_else(name: str, files: Files, store: Store, tmp_path: Path) -> None:
    path = packed(tmp_path / "b.zip", with_manifest({**files, name: b"x"}))
    assert "no file of a bundle has such a name" in refused(store, path)
    assert not (tmp_path / "escaped.txt").exists()


def test_a_symbolic_link_is_refused(files: Files, store: Store, tmp_path: Path) -> None:
    path = packed(tmp_path / "b.zip", with_manifest(files))
    with zipfile.ZipFile(path, "a") as file:
        link = zipfile.ZipInfo("photos/" + "a" * 64)
        link.create_system, link.external_attr = 3, 0o120777 << 16
        file.writestr(link, "/etc/passwd")
    assert "is a link or folder" in refused(store, path)


def test_two_files_of_one_name_are_refused(files: Files, store: Store, tmp_path: Path) -> None:
    path = packed(tmp_path / "b.zip", with_manifest(files))
    with zipfile.ZipFile(path, "a") as file, pytest.warns(UserWarning, match="Duplicate"):
        file.writestr("entries.jsonl", b"")
    assert "'entries.jsonl': is in it 2 times" in refused(store, path)


@pytest.mark.parametrize("name", ["entries.jsonl", "photos/" + digest_of(bytes(4 << 20)), f"setup/{EVENT}/van.csv"])
def test_what_unpacks_to_a_thousand_times_its_size_is_refused_unread(
    name: str, files: Files, store: Store, tmp_path: Path
) -> None:
    path = packed(tmp_path / "b.zip", with_manifest({**files, name: bytes(4 << 20)}))
    assert "unpacks to far more than it was packed to" in refused(store, path)


def test_a_size_that_lies_gives_no_more_bytes_than_it_says(files: Files, store: Store, tmp_path: Path) -> None:
    """The directory says 1,000 bytes where 4 MiB would come out."""
    path = packed(tmp_path / "b.zip", with_manifest({**files, "devices.json": bytes(4 << 20)}))
    with zipfile.ZipFile(path) as file:
        info = file.getinfo("devices.json")
    data = path.read_bytes()
    # Size as packed and as unpacked stand side by side, in the local header and in the directory.
    sizes = struct.pack("<II", info.compress_size, info.file_size)
    assert data.count(sizes) == 2
    path.write_bytes(data.replace(sizes, struct.pack("<II", info.compress_size, 1000)))
    assert "devices.json: " in refused(store, path)


def test_too_many_or_too_large_files_are_refused(
    files: Files, store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = packed(tmp_path / "b.zip", with_manifest(files))
    monkeypatch.setattr(bundle_check, "MOST_FILES", 5)
    assert "at most 5 are taken" in refused(store, path)
    monkeypatch.setattr(bundle_check, "MOST_FILES", 50)
    monkeypatch.setattr(bundle_check, "MOST_BYTES", 1000)
    assert "more than 1000 bytes in all" in refused(store, path)
    monkeypatch.setattr(bundle_check, "MOST_BYTES", 1 << 30)
    monkeypatch.setattr(bundle_check, "MOST_SETUP", 100)
    assert "at most 100 are taken" in refused(store, path)


def test_a_file_locked_with_a_password_is_refused(files: Files, store: Store, tmp_path: Path) -> None:
    path = packed(tmp_path / "b.zip", with_manifest(files))
    data = bytearray(path.read_bytes())
    # General purpose bit 0, at 6 of a local header and at 8 of the directory's (APPNOTE 4.4.4).
    data[6] |= 1
    data[data.index(b"PK\x01\x02") + 8] |= 1
    path.write_bytes(data)
    assert "is locked with a password" in refused(store, path)


def test_another_way_of_packing_is_refused(files: Files, store: Store, tmp_path: Path) -> None:
    path = tmp_path / "b.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_LZMA) as file:
        for name, data in with_manifest(files).items():
            file.writestr(name, data)
    assert "packed in a way that no bundle is" in refused(store, path)


def test_files_that_share_their_bytes_are_refused(files: Files, store: Store, tmp_path: Path) -> None:
    """The directory names one local file twice: little bytes become many."""
    path = packed(tmp_path / "b.zip", with_manifest({**files, "photos/" + "a" * 64: b"x", "photos/" + "b" * 64: b"x"}))
    data = bytearray(path.read_bytes())
    one, other = (data.rindex(b"photos/" + mark * 64) - 46 for mark in (b"a", b"b"))
    # The place of the local header stands at 42 of the directory's (APPNOTE 4.3.12).
    data[other + 42 : other + 46] = data[one + 42 : one + 46]
    path.write_bytes(data)
    assert "shares bytes with another file" in refused(store, path)


@pytest.mark.parametrize("data", [b"", b"PK", b"%PDF-1.7", b"PK\x05\x06" + bytes(18), b"PK\x05\x06" + b"\xff" * 18])
def test_what_is_no_zip_file_is_no_bundle(data: bytes, store: Store, tmp_path: Path) -> None:
    path = tmp_path / "b.zip"
    path.write_bytes(data)
    refused(store, path)
    done = run("bundle", "import", path, data=store.folder)
    assert (done.returncode, done.stdout) == (1, "")


def test_a_line_that_is_no_entry_is_set_aside_and_holds_back_nothing(store: Store, tmp_path: Path) -> None:
    good = Pen(EVENT).filed("front-left/wheel bent")
    entries = b'{"id": 7}\n\nnot json\n' + lines(good) + b'{"a": 1e400}\n' + b"[" * 20_000 + b"\n"
    files = {"entries.jsonl": entries, **setup_of_sample(trust="off")}
    taken = import_bundle(store, packed(tmp_path / "b.zip", with_manifest(files, entries=5)), Choice(), NOW)
    assert (taken.new, len(taken.set_aside)) == (1, 4)


def setup_of_sample(trust: str) -> Files:
    folder = sample_folder()
    event = (folder / "event.toml").read_text().split("[trust]")[0] + f'\n[trust]\nsignatures = "{trust}"\n'
    rates = {f"rates/{path.name}": path.read_bytes() for path in (folder / "rates").iterdir()}
    files = {"event.toml": event.encode(), "van.csv": (folder / "van.csv").read_bytes(), **rates}
    return {f"setup/{EVENT}/{name}": data for name, data in files.items()}
