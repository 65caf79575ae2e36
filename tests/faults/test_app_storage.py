"""F15 to F17 on the real app: its storage evicted, full, or damaged on the disk."""

from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from phones import PocketPhone
from playwright.sync_api import Error

from shuntbook.flow import diagnostics
from shuntbook.store.database import Store

from . import disk
from .invariants import check
from .pictures import jpeg
from .pocket import Pocket
from .proxy import NOTHING, REFUSED, no_api
from .tally import tries
from .yard import Simulated, Yard

Browsers = Callable[..., PocketPhone]
COUNT_ASKING = """
  window.asked = 0;
  if (navigator.storage) {
    const persist = navigator.storage.persist.bind(navigator.storage);
    navigator.storage.persist = () => { window.asked += 1; return persist(); };
  }
"""


def relay(by: Simulated, entry: dict, raw: bytes) -> None:
    """Bring another phone's entry, as from its code or its file."""
    by.outbox.db.execute("INSERT INTO entry VALUES (?, ?, 0, 'waiting', NULL, ?)", [entry["id"], raw, entry["seq"]])
    assert by.round()


@pytest.mark.longer
def test_f15_a_phones_storage_is_evicted_with_unsent_entries(yard: Yard, own_browser: Browsers) -> None:
    times = tries(1, 4)
    for _ in range(times):
        phone, other = own_browser(), yard.phone("p-kasp")
        phone.context.add_init_script(COUNT_ASKING)
        pocket = Pocket(yard, phone, "p-bodo")
        assert pocket.page.evaluate("window.asked") >= 1, "to be kept for good was asked for at joining"
        yard.proxy.rule = no_api
        entries = [pocket.log_hit() for _ in range(3)]
        own = pocket.own()
        yard.proxy.heal()
        yard.proxy.rule = lambda request, it=pocket: no_api(request) if is_from(request.head, it) else NOTHING
        relay(other, entries[2], own[entries[2]["id"]][0])
        pocket.page.goto("about:blank")
        pocket.page.goto(f"{yard.proxy.url}/manifest.webmanifest")
        pocket.storage("clearDataForOrigin", storageTypes="all")
        yard.proxy.heal()
        yard.clients.remove(pocket)
        device, gone = entries[0]["device"], [one["id"] for one in entries[:2]]
        yard.ledger.forget(gone)
        (seen,) = [one for one in diagnostics.devices(Store(yard.data)) if one.device == device]
        assert (seen.last_seq, seen.missing) == (3, [[1, 2]]), "the server sees what the phone took with it"
        again = Pocket(yard, phone, "p-bodo")
        again.log_hit()
        recovered_s = [yard.settle()]
        again.phone.show("me")
        again.page.get_by_text(f"phone {device}: numbers 1 and 2 have not come in").wait_for()
        check(yard, "F15", "phone's storage evicted", recovered_s=recovered_s)


def is_from(head: bytes, pocket: Pocket) -> bool:
    """Return whether a browser sent it; simulated phones have no name for themselves."""
    return b"user-agent: mozilla" in head.lower()


@pytest.fixture
def on_small_disk(yard: Yard, own_browser: Browsers, tmp_path: Path) -> Iterator[tuple[Pocket, Path]]:
    """A phone whose whole disk has a few MiB, and where that is."""
    with disk.small_disk(tmp_path / "flash", PHONE_MIB) as mounted:
        phone = own_browser(tmp_path / "flash")
        if not mounted:
            phone.context.add_init_script(REFUSE_WHEN_FULL)
        yield Pocket(yard, phone), tmp_path / "flash"
        phone.close()
        # The browser ends the store's connection where the disk fails it, and with it what was being read: `idb`
        # reports that once more, beside the error that the app sees and lives through.
        phone.complaints = [one for one in phone.complaints if one != "AbortError" and "FILE_ERROR_NO_SPACE" not in one]


PHONE_MIB = 96
# Where no small disk can be had: the store refuses as it does on a full phone.
REFUSE_WHEN_FULL = """
  for (const name of ['put', 'add']) {
    const work = IDBObjectStore.prototype[name];
    IDBObjectStore.prototype[name] = function (...given) {
      if (window.full) throw new DOMException('full', 'QuotaExceededError');
      return work.apply(this, given);
    };
  }
"""
# Another store of the app's origin takes all that the browser grants it, down to the last 64 KiB.
BALLAST = """async () => {
  const db = await new Promise((good) => {
    const opened = indexedDB.open('ballast', 1);
    opened.onupgradeneeded = () => opened.result.createObjectStore('all', { autoIncrement: true });
    opened.onsuccess = () => good(opened.result);
  });
  const put = (size) => new Promise((good) => {
    const bytes = new Uint8Array(size);
    for (let at = 0; at < size; at += 65536) crypto.getRandomValues(bytes.subarray(at, at + 65536));
    let write;
    try {
      write = db.transaction('all', 'readwrite', { durability: 'strict' });
      write.objectStore('all').add(bytes);
    } catch (error) { return good(error.name); }
    write.oncomplete = () => good('');
    write.onabort = () => good(write.error.name);
  });
  let refused = '';
  for (const size of [2 ** 22, 2 ** 18, 2 ** 16]) while (!(refused = await put(size))) {}
  db.close();
  return refused;
}"""
DROP = """() => new Promise((good) => { indexedDB.deleteDatabase('ballast').onsuccess = () => good(); })"""


def save_until_refused(pocket: Pocket) -> int:
    """Log hits until one is refused, and return how many were kept: a block that was begun still takes a few."""
    kept = pocket.page.get_by_text("Kept on this phone")
    refused = pocket.page.get_by_text("nothing was saved")
    for count in range(60):
        pocket.fill_in()
        pocket.page.get_by_role("button", name="Save", exact=True).click()
        kept.or_(refused).first.wait_for()
        if refused.count():
            return count
    raise AssertionError("a full disk took 60 hits")


def save_until_kept(pocket: Pocket) -> None:
    """Tap Save, as the app says, until it says that the report is kept."""
    kept = pocket.page.get_by_text("Kept on this phone")
    save = pocket.page.get_by_role("button", name="Save", exact=True)
    for _ in range(60):
        kept.or_(save).first.wait_for()
        if kept.count():
            break
        with suppress(Error):  # the tap before was heard after all, and the button is gone
            save.click(timeout=1_000)
        pocket.page.wait_for_timeout(500)
    kept.wait_for()
    pocket.note_all()


@pytest.mark.longer
def test_f16_the_quota_is_full_while_a_photo_is_saved(yard: Yard, on_small_disk: tuple[Pocket, Path]) -> None:
    pocket, _ = on_small_disk
    for turn in range(tries(1, 4)):
        before = pocket.sent()
        pocket.log_hit()
        pocket.page.evaluate("window.full = true")
        assert pocket.page.evaluate(BALLAST) == "QuotaExceededError"
        pocket.add_photo(jpeg(500 + turn, (1600, 1200)), is_refused=True)
        pocket.page.get_by_text("This phone is full: the photo was not kept").first.wait_for()
        yard.settle()
        assert pocket.sent() == before + 1, "the report went out without it"
        pocket.page.evaluate("window.full = false")
        pocket.page.evaluate(DROP)
        pocket.add_photo(jpeg(500 + turn, (1600, 1200)))
        yard.settle()
        assert pocket.sent() == before + 2, "with room again the photo follows"
    check(yard, "F16", "no room for a photo", tries=tries(1, 4))


def test_f16_the_disk_of_the_phone_is_full(yard: Yard, on_small_disk: tuple[Pocket, Path]) -> None:
    pocket, flash = on_small_disk
    for turn in range(tries(1, 4)):
        before = pocket.sent()
        pocket.log_hit()
        pocket.page.evaluate("window.full = true")
        with disk.filled(flash):
            kept = save_until_refused(pocket)
        pocket.page.evaluate("window.full = false")
        save_until_kept(pocket)
        pocket.add_photo(jpeg(520 + turn, (1600, 1200)))
        yard.settle()
        assert pocket.sent() == before + kept + 3, "what was filled in was still there; nobody loaded the page again"
    check(yard, "F16", "phone's disk full", tries=tries(1, 4))


@pytest.mark.longer
def test_f17_a_stored_photo_can_not_be_read_any_more(yard: Yard, own_browser: Browsers) -> None:
    phone = own_browser()
    pocket = Pocket(yard, phone)
    yard.proxy.rule = lambda request: REFUSED if request.is_photo else NOTHING
    for number in (510, 511):
        pocket.log_hit()
        pocket.add_photo(jpeg(number, (1600, 1200)))
    phone.context.close()
    stored = [file for file in phone.profile.rglob("*indexeddb.blob/**/*") if file.is_file()]
    assert len(stored) >= 2, "Chromium keeps what is large in a file of its own"
    stored[0].unlink()
    yard.proxy.heal()
    pocket.open_again()
    recovered_s = [yard.settle()]
    assert pocket.sent() == 4, "each hit, and that it has a photo"
    assert [pocket.counts()[name][1] for name in ("waiting", "sent", "attention")] == [0, 1, 1]
    pocket.page.get_by_text("1 need attention").wait_for()
    check(yard, "F17", "a stored photo's file is gone", recovered_s=recovered_s)
