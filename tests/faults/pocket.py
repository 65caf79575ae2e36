"""A real phone: Chromium behind the bad network, whose store can be read, and which can be killed or paused."""

import os
import signal
import time
from contextlib import suppress
from typing import Any

import psutil
from phones import Phone, PocketPhone
from playwright.sync_api import CDPSession, Error, FilePayload, Page

from .yard import PATIENCE_S, Yard

# Opened without a version: the store as it is, whichever app made it. Bytes of photos are counted, not copied.
READ = """async () => {
  const db = await new Promise((good, bad) => {
    const opened = indexedDB.open('shuntbook');
    opened.onsuccess = () => good(opened.result);
    opened.onerror = () => bad(opened.error);
  });
  const all = (name, range) => new Promise((good, bad) => {
    const asked = db.transaction(name).objectStore(name).getAll(range);
    asked.onsuccess = () => good(asked.result);
    asked.onerror = () => bad(asked.error);
  });
  const pages = await all('meta', IDBKeyRange.bound(['page'], ['page', []]));
  const held = [...(await all('entries')), ...pages.flatMap(({ records }) => JSON.parse(records))];
  const entries = held.map((one) => ({ ...one, raw: JSON.stringify(one.entry) }));
  const answers = (await all('answers')).map(({ key, answer }) => [key, answer.hash ?? null]);
  db.close();
  return { entries, answers };
}"""
# Counted by key, so that a photo that can't be read any more stops nobody.
COUNT = """async () => {
  const db = await new Promise((good) => {
    const opened = indexedDB.open('shuntbook');
    opened.onsuccess = () => good(opened.result);
  });
  const count = (name, sending) => new Promise((good) => {
    const asked = db.transaction(name).objectStore(name).index('sending').count(sending);
    asked.onsuccess = () => good(asked.result);
  });
  const found = {};
  for (const sending of ['waiting', 'sent', 'attention'])
    found[sending] = [await count('entries', sending), await count('photos', sending)];
  found.sent[0] += await new Promise((good) => {
    const asked = db.transaction('meta').objectStore('meta').getAll(IDBKeyRange.bound(['page'], ['page', []]));
    asked.onsuccess = () => good(asked.result.reduce((sum, page) => sum + page.count, 0));
  });
  db.close();
  return found;
}"""


class Doorway:
    """Where phones on the bad network find the server; has what a browser phone asks of a server."""

    def __init__(self, yard: Yard) -> None:
        self.yard = yard

    @property
    def url(self) -> str:
        return self.yard.proxy.url

    def link(self, person: str) -> str:
        return self.yard.server.link(person).replace(self.yard.server.url, self.url)


class Pocket:
    """A browser with one person on it, as the checks see a phone.

    A mechanic by default: a crew on the road is shown no queue, and so fetches none.
    """

    def __init__(
        self, yard: Yard, phone: Phone, person: str = "p-bodo", car: str = "41", *, has_joined: bool = False
    ) -> None:
        self.yard, self.phone, self.car = yard, phone, car
        self.doorway = Doorway(yard)
        self._session: CDPSession | None = None
        if not has_joined:
            self.join(person)
        yard.clients.append(self)

    def join(self, person: str) -> None:
        """Join as a person, and say what the server answered where that fails."""
        try:
            self.phone.join(self.doorway, person, self.car)
        except Error as error:
            error.add_note(f"{self.page.url}: {self.page.inner_text('body')}")
            error.add_note(f"the last answers: {self.yard.proxy.statuses[-20:]}")
            raise

    @property
    def page(self) -> Page:
        return self.phone.page

    def log_hit(self, zone: str = "Front left", part: str = "Wheel rim") -> dict[str, Any]:
        """Log a hit as a person does; return its entry once the app says that it is kept."""
        known = set(self.own())
        self.fill_in(zone, part)
        self.page.get_by_role("button", name="Save", exact=True).click()
        self.page.get_by_text("Kept on this phone").wait_for()
        (new,) = [one for one in self.entries() if one["mine"] and one["id"] not in known]
        self.yard.ledger.note_written(new["id"], new["raw"].encode())
        written: dict[str, Any] = new["entry"]
        return written

    def fill_in(self, zone: str = "Front left", part: str = "Wheel rim") -> None:
        """Fill in the form of a hit, a new one where one was just saved."""
        self.phone.show("log")
        place, again = (self.page.get_by_role("button", name=name).first for name in (zone, "Log another hit"))
        place.or_(again).first.wait_for()
        if again.is_visible():
            again.click()
        place.click()
        self.page.get_by_label(part, exact=True).check()

    def add_photo(self, data: bytes, is_refused: bool = False) -> None:
        """Take a photo of the hit that was logged last; returns once it is kept, or the app says that it was not."""
        file: FilePayload = {"name": "hit.jpg", "mimeType": "image/jpeg", "buffer": data}
        self.page.locator("input[type=file]").first.set_input_files(file)
        if is_refused:
            self.page.get_by_text("was not kept").first.wait_for()
        else:
            self.page.locator(".kept img").first.wait_for()
        self.note_all()

    def note_all(self) -> None:
        """Hold the yard to all that is on this phone now."""
        for name, (raw, _) in self.own().items():
            self.yard.ledger.note_written(name, raw)

    def entries(self) -> list[dict[str, Any]]:
        answer: list[dict[str, Any]] = self.page.evaluate(READ)["entries"]
        return answer

    def own(self) -> dict[str, tuple[bytes, str]]:
        return {one["id"]: (one["raw"].encode(), one["sending"]) for one in self.entries() if one["mine"]}

    def sent(self) -> int:
        """Return how many of the entries written here the server has acknowledged."""
        return sum(sending == "sent" for _, sending in self.own().values())

    def counts(self) -> dict[str, list[int]]:
        """Return [entries, photos] by where they are."""
        answer: dict[str, list[int]] = self.page.evaluate(COUNT)
        return answer

    def waiting(self) -> int:
        return sum(self.counts()["waiting"])

    def queue_hash(self, car: str) -> str:
        """Return the hash of the queue that the phone holds, once it has caught up or nothing more comes."""
        right: str = self.yard.server.queue(car)["hash"]
        if car != self.car:
            return right  # it shows one car and has heard of no other
        began = time.monotonic()
        while (held := self._held_hash()) != right and time.monotonic() - began < PATIENCE_S:
            time.sleep(0.2)
        return held

    def _held_hash(self) -> str:
        answers = dict(self.page.evaluate(READ)["answers"])
        return next(
            (str(one) for key, one in answers.items() if key.startswith("queue ") and f'"{self.car}"' in key), ""
        )

    def open_again(self, screen: str = "me") -> None:
        """Open the app again, as after a kill."""
        if isinstance(self.phone, PocketPhone):
            self.phone.open()
        self.page.goto(f"{self.doorway.url}/#/{screen}")
        self.page.get_by_role("heading", level=1).first.wait_for()

    def storage(self, method: str, **arguments: object) -> dict[str, Any]:
        """Call Chromium's own storage commands for the app's origin; what they set holds while the page lives."""
        if self._session is None:
            self._session = self.page.context.new_cdp_session(self.page)
        return self._session.send(f"Storage.{method}", {"origin": self.doorway.url, **arguments})

    def signal_all(self, what: signal.Signals) -> None:
        """Send a signal to every process of the browser: SIGSTOP pauses it as a phone pauses an app."""
        assert isinstance(self.phone, PocketPhone)
        for process in processes_of(self.phone):
            with suppress(ProcessLookupError):
                os.kill(process.pid, what)


def processes_of(phone: PocketPhone) -> list[psutil.Process]:
    """Return the browser's processes."""
    mark = f"--user-data-dir={phone.profile}"
    mine = [one for one in psutil.process_iter(["cmdline"]) if mark in (one.info["cmdline"] or [])]
    assert mine, "the browser's process was not found"
    return list({one.pid: one for main in mine for one in [main, *main.children(recursive=True)]}.values())
