"""F14: what an older app left on a phone against today's server, and a newer app's against it and against its own past.

The older app is the first one: its store as it made it, its person without a key, its entries without a signature. The
newer ones are today's with a store one version on, and entries of kinds and versions that are not known yet.
"""

import base64
import re
import shutil
from collections.abc import Callable
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from phones import SIZE
from phones import Phone as Screen
from playwright.sync_api import Browser, Page, Route

from release_0_1_0 import app
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.kit.canonical import sha256
from shuntbook.store.database import Store
from shuntbook.web.pages import HEADERS

from .invariants import check
from .phone import Identity, Phone
from .pictures import jpeg
from .pocket import Pocket
from .proxy import NOTHING, REFUSED
from .yard import EVENT, KEYS, Yard

# The store as the first app made it (version 1, an index more than today) and what it wrote there.
FIRST_APP = """async ({ identity, entries, photo, bytes, held_at }) => {
  const db = await new Promise((good, bad) => {
    const opened = indexedDB.open('shuntbook', 1);
    opened.onupgradeneeded = () => {
      const db = opened.result;
      const kept = db.createObjectStore('entries', { keyPath: 'id' });
      kept.createIndex('event', 'event');
      kept.createIndex('sending', 'sending');
      db.createObjectStore('photos', { keyPath: 'photo' }).createIndex('sending', 'sending');
      db.createObjectStore('answers', { keyPath: 'key' });
      db.createObjectStore('identities', { keyPath: 'device' });
      db.createObjectStore('seq');
      db.createObjectStore('meta');
    };
    opened.onsuccess = () => good(opened.result);
    opened.onerror = () => bad(opened.error);
  });
  const tx = db.transaction(['entries', 'photos', 'identities', 'seq', 'meta'], 'readwrite', { durability: 'strict' });
  const waits = { sending: 'waiting', problem: null, held_at };
  for (const entry of entries)
    tx.objectStore('entries').add({ id: entry.id, event: entry.event, entry, mine: true, arrival: 1, ...waits });
  const { buffer } = Uint8Array.from(atob(bytes), (one) => one.charCodeAt(0));
  tx.objectStore('photos').add({ photo, bytes: buffer, type: 'image/jpeg', device: identity.device, ...waits });
  tx.objectStore('identities').add(identity);
  tx.objectStore('seq').put(entries.length, identity.device);
  tx.objectStore('meta').put(1, 'arrivals');
  tx.objectStore('meta').put(identity.person, 'last_person');
  await new Promise((good, bad) => { tx.oncomplete = good; tx.onabort = () => bad(tx.error); });
  db.close();
}"""


def first_app(yard: Yard, screen: Screen, who: Identity) -> Pocket:
    """Leave on a phone what the first app wrote before it ever reached a server: three reports and a photo."""
    picture = jpeg(140)
    writer = Phone(yard.folder / "first app", yard.proxy.port, who, EVENT)
    bodies = [{"zone": key.split("/")[0], "photos": [sha256(picture)]} for key in KEYS[:3]]
    drafts = [writer.draft("report.filed", None, body) for body in bodies]
    person = {"device": who.device, "person": who.person, "name": "Bodo", "roles": ["mechanic"], "events": [EVENT]}
    screen.page.goto(f"{yard.proxy.url}/manifest.webmanifest")
    left = {
        "identity": {**person, "token": who.token, "code_hash": "", "joined_at": now(), "refused": False},
        "entries": [{**draft, "seq": number} for number, draft in enumerate(drafts, start=1)],
        "photo": sha256(picture),
        "bytes": base64.b64encode(picture).decode(),
        "held_at": now(),
    }
    screen.page.evaluate(FIRST_APP, left)
    return Pocket(yard, screen, has_joined=True)


def demand_signatures(yard: Yard, prepared: Path, signatures: str) -> None:
    """Load the event again, saying whether its entries have to be signed."""
    folder = yard.folder / "event"
    shutil.copytree(prepared.parent / "event", folder)
    file = folder / "event.toml"
    file.write_text(file.read_text().replace('signatures = "off"', f'signatures = "{signatures}"'))
    load(Store(yard.data), folder, now())


@pytest.mark.parametrize(("signatures", "ends"), [("off", "sent"), ("on", "attention")])
def test_f14_the_outbox_of_an_older_app_against_todays_server(
    make_yard: Callable[..., Yard], prepared: Path, chromium: Browser, signatures: str, ends: str
) -> None:
    yard = make_yard()
    demand_signatures(yard, prepared, signatures)
    yard.server.start()
    screen = Screen(chromium.new_context(viewport=SIZE, service_workers="block"), keeps_app=False)
    pocket = first_app(yard, screen, yard.identity("p-bodo"))
    pocket.note_all()
    before = pocket.own()
    assert (len(before), pocket.waiting()) == (3, 4)
    screen.page.goto(f"{yard.proxy.url}/#/me")
    screen.page.get_by_role("heading", level=1).first.wait_for()
    screen.page.get_by_role("combobox", name="Which car").or_(
        screen.page.get_by_role("button", name="Car 41")
    ).wait_for()
    recovered_s = yard.settle()
    assert {name: sending for name, (_, sending) in pocket.own().items()} == dict.fromkeys(before, ends)
    assert pocket.counts()["sent"][1] == 1, "its photo is there, whatever became of the reports"
    if ends == "attention":
        screen.show("me")
        screen.page.get_by_text("3 need attention").wait_for()
    check(yard, "F14", "an older app's outbox", tries=len(before), recovered_s=[recovered_s])
    screen.close()
    assert screen.complaints == []


PUT = """async (records) => {
  const db = await new Promise((good) => {
    const opened = indexedDB.open('shuntbook');
    opened.onsuccess = () => good(opened.result);
  });
  const tx = db.transaction(['entries', 'seq'], 'readwrite', { durability: 'strict' });
  for (const one of records) {
    tx.objectStore('entries').add(one);
    tx.objectStore('seq').put(one.entry.seq, one.entry.device);
  }
  await new Promise((good, bad) => { tx.oncomplete = good; tx.onabort = () => bad(tx.error); });
  db.close();
}"""


@pytest.mark.longer
def test_f14_entries_of_a_newer_app_against_todays_server(yard: Yard, pocket: Callable[..., Pocket]) -> None:
    phone = pocket()
    first = phone.log_hit()
    yard.settle()
    who = Identity(first["person"], first["device"], "")
    writer = Phone(yard.folder / "newer app", yard.proxy.port, who, EVENT)
    newer = [
        {**writer.draft("report.filed", None, {"zone": "cabin"}), "v": 2},
        writer.draft("report.annotated", first["id"], {"text": "of a kind to come"}),
        {**writer.draft("report.filed", None, {"zone": "cabin", "wind": "strong"}), "mood": "good"},
    ]
    records = [
        {"entry": {**one, "seq": number}, "id": one["id"], "mine": True, "sending": "waiting", "problem": None}
        for number, one in enumerate(newer, start=2)
    ]
    phone.page.evaluate(PUT, [{**one, "held_at": now(), "arrival": 1} for one in records])
    after = phone.log_hit()
    recovered_s = yard.settle()
    states = {name: sending for name, (_, sending) in phone.own().items()}
    ends = [states[one["id"]] for one in (*newer, after)]
    assert (len(states), ends) == (5, ["attention", "attention", "sent", "sent"]), "unknown fields are passed on"
    phone.phone.show("me")
    phone.page.get_by_text("2 need attention").wait_for()
    phone.note_all()
    check(yard, "F14", "a newer app's entries", tries=len(newer), recovered_s=[recovered_s])


def leave(page: Page) -> None:
    """Leave the app, which fetches its screens while idle, and let its files come as they are from now on."""
    page.goto("about:blank")
    # What was on its way belongs to a page that is gone: Playwright says of it that it is handled already.
    page.unroute_all(behavior="ignoreErrors")


class Newer:
    """Answers with today's app, its store one version on; the store is in one of the app's files, whichever."""

    def __init__(self) -> None:
        self.changed = 0

    def __call__(self, route: Route) -> None:
        answer = route.fetch()
        text, count = re.subn(r"\b\w+,\{upgrade\((\w)\)\{", r"2,{upgrade(\1,was){if(was)return;", answer.text())
        self.changed += count
        route.fulfill(response=answer, body=text)


@pytest.mark.longer
def test_f14_the_store_of_a_newer_app_is_left_alone_by_an_older_one(yard: Yard, chromium: Browser) -> None:
    screen = Screen(chromium.new_context(viewport=SIZE, service_workers="block"), keeps_app=False)
    page, files, newer = screen.page, re.compile(r"/assets/[\w-]+\.js$"), Newer()
    page.route(files, newer)
    pocket = Pocket(yard, screen)
    pocket.log_hit()
    yard.settle()
    yard.proxy.rule = lambda request: REFUSED if request.is_sync else NOTHING
    for _ in range(2):
        pocket.log_hit()
    before = pocket.own()
    assert newer.changed == 1
    leave(page)
    page.goto(f"{yard.proxy.url}/#/me")  # the server was put back to an older version, which brings its app
    page.get_by_text("all are still here, but this older one can't open them").wait_for()
    yard.proxy.heal()
    assert pocket.own() == before
    page.route(files, newer)
    page.goto("about:blank")
    page.goto(f"{yard.proxy.url}/#/me")
    recovered_s = yard.settle()
    assert pocket.sent() == 3
    check(yard, "F14", "an older app on a newer one's store", recovered_s=[recovered_s])
    leave(page)
    screen.close()
    assert [one for one in screen.complaints if "VersionError" not in one and "less than the existing" not in one] == []


class Frozen:
    """Answers with the app as release 0.1.0 built it."""

    def __init__(self, folder: Path) -> None:
        self.folder = app(folder)

    def __call__(self, route: Route) -> None:
        name = urlsplit(route.request.url).path.lstrip("/") or "index.html"
        route.fulfill(path=self.folder / name, headers=HEADERS)


def test_f14_the_app_of_0_1_0_on_a_van_that_is_updated_and_put_back(
    yard: Yard, chromium: Browser, tmp_path: Path
) -> None:
    screen = Screen(chromium.new_context(viewport=SIZE, service_workers="block"), keeps_app=False)
    pages, frozen = re.compile(rf"^{re.escape(yard.proxy.url)}/(?!api/)"), Frozen(tmp_path)
    screen.page.route(pages, frozen)
    pocket = Pocket(yard, screen)
    pocket.log_hit()
    yard.settle()
    yard.proxy.rule = lambda request: REFUSED if request.is_sync else NOTHING
    pocket.log_hit("Front right")
    was = pocket.own()
    for update in (True, False):
        leave(screen.page)
        if not update:
            screen.page.route(pages, frozen)
        pocket.open_again("log")
        assert pocket.own() == was
        pocket.log_hit("Rear left" if update else "Rear right")
        was = pocket.own()
    yard.proxy.heal()
    recovered_s = yard.settle()
    assert pocket.sent() == 4
    check(yard, "F14", "the app of 0.1.0, today's, and 0.1.0 again", tries=4, recovered_s=[recovered_s])
    leave(screen.page)
    screen.close()
    assert screen.complaints == []
