"""Measures the app in the hand, in a slowed Chromium: starts, bytes, long tasks, memory, frames.

Reported, never a pass mark; docs/app-speed.md says what each line means and what is wanted.
"""

import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Playwright, sync_playwright

from bench.entries import event_folder, log
from bench.figures import Spread, dropped_frames, kilobytes, long_tasks, spread
from bench.hand_event import CREW, MECHANIC, write_day, write_event
from bench.hand_line import SLOW_3G, Line
from bench.hand_phone import Phone, Start
from bench.hand_photos import keep_photos
from bench.lighthouse import say_lighthouse
from bench.server import Server, serving
from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.store.database import Store

SLOWED = 4.0
VISITS, STARTS, HITS = 2, 5, 10
SCROLL_PX, SCROLL_PX_PER_S = 12_000, 2_400
HELD = 10_000
"""Entries of a season."""

HOLDS = """() => new Promise((good, bad) => {
  const opened = indexedDB.open('shuntbook');
  opened.onerror = () => bad(opened.error);
  opened.onsuccess = () => {
    const tx = opened.result.transaction(['entries', 'meta']);
    const single = tx.objectStore('entries').count();
    const pages = tx.objectStore('meta').getAll(IDBKeyRange.bound(['page'], ['page', []]));
    tx.oncomplete = () => {
      opened.result.close();
      good(pages.result.reduce((sum, { count }) => sum + count, single.result));
    };
  };
})"""
# The queue's check is another one as soon as what is shown is another.
SHOWN = """() => {
  const check = () => document.querySelector('[data-hash]')?.dataset.hash;
  const was = check();
  return { is: new Promise((good) => {
    const watch = new MutationObserver(() => { if (check() !== was) { watch.disconnect(); good(true); } });
    watch.observe(document.body, { subtree: true, childList: true, attributes: true });
  }) };
}"""


@dataclass(frozen=True)
class Bench:
    """What every measurement needs: the browsers' driver, the server and its data, the line to it, a folder."""

    playwright: Playwright
    data: Path
    line: Line
    folder: Path
    server: Server

    def phone(self, name: str) -> Phone:
        """Return a phone that has never seen the app."""
        return Phone(self.playwright, self.folder / name)

    def link(self, person: str) -> str:
        """Return an invitation."""
        return joining.join_link(self.line.url, joining.invite(Store(self.data), person, now()))


def main() -> None:
    """Run every measurement and print a line for each."""
    with bench() as made:
        first_visits(made)
        crew = made.phone("crew")
        crew.start(made.link(CREW))
        crew.settle()
        keep_photos(crew.page)
        starts(made, crew)
        logging(crew, made.line.url)
        scrolling(crew, "reports")
        crew.close()
        memory_and_scrolling_of_a_mechanic(made)
        say_lighthouse(made.line.url)
        made.line.cut()
        without_a_server(crew, made.line.url)
    with bench(write_day) as made:
        phone = made.phone("sample")
        phone.start(made.link(CREW))
        phone.settle()
        logging(phone, made.line.url, "a car's two days")
        phone.close()
    with bench(write_season) as made:
        a_season_held(made)


@contextmanager
def bench(event: Callable[[Path], Path] = write_event) -> Iterator[Bench]:
    """Serve an event, the large one, for the length of the block."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        load(Store(folder / "data"), event(folder / "event"), now())
        with serving(folder / "data", "p-vera") as server, sync_playwright() as playwright:
            yield Bench(playwright, folder / "data", Line(server.connection.port), folder, server)


def write_season(folder: Path) -> Path:
    """Write the sample event with a log of two cars that is as long as a season's."""
    event_folder(folder)
    (folder / "entries.jsonl").write_bytes(b"".join(entry + b"\n" for entry in log(HELD)))
    return folder


def first_visits(made: Bench) -> None:
    """Nothing of the app on the phone: an invitation opened, until the log can be tapped, and until all is kept."""
    for slowed, speed, says in ((1.0, None, "not slowed"), (SLOWED, SLOW_3G, "slow 3G, processor ÷ 4")):
        made.line.set(speed)
        found, sizes, kept = [], [], []
        for number in range(VISITS):
            phone = made.phone(f"visit-{slowed}-{number}")
            phone.slow(slowed)
            before = sum(made.line.passed())
            found.append(phone.start(made.link(CREW)))
            sizes.append(sum(made.line.passed()) - before)
            phone.settle()
            kept.append(sum(made.line.passed()) - before)
            phone.close()
        say_starts(f"first visit, {says}", found)
        say("  bytes until then, until all is kept", f"{kilobytes(max(sizes))}, {kilobytes(max(kept))}")
    made.line.set(None)


def starts(made: Bench, phone: Phone) -> None:
    """The app is on the phone: opened in a browser just started (cold), and again in the same one (warm)."""
    for slowed, speed, offline, says in (
        (1.0, None, False, "not slowed"),
        (SLOWED, None, False, "processor ÷ 4"),
        (SLOWED, SLOW_3G, False, "processor ÷ 4, slow 3G"),
        (SLOWED, None, True, "processor ÷ 4, offline"),
    ):
        made.line.set(speed)
        cold, warm = cold_and_warm(phone, made.line.url, slowed, offline)
        say_starts(f"cold start, {says}", cold)
        say_starts(f"warm start, {says}", warm)
        ratio = spread([one.tappable_ms for one in cold]).median / spread([one.tappable_ms for one in warm]).median
        say("  cold against warm", f"{ratio:.1f} ×")
    made.line.set(None)
    phone.slow(1)
    phone.context.set_offline(False)


def cold_and_warm(phone: Phone, url: str, slowed: float, offline: bool = False) -> tuple[list[Start], list[Start]]:
    """Start cold and warm in turns, so that what else the machine does falls on both."""
    cold, warm = [], []
    for _ in range(STARTS):
        phone.close()
        phone.open()
        phone.slow(slowed)
        phone.context.set_offline(offline)
        cold.append(phone.start(f"{url}/"))
        phone.page.wait_for_timeout(1000)
        warm.append(phone.start(f"{url}/"))
        phone.page.wait_for_timeout(500)
    return cold, warm


def without_a_server(phone: Phone, url: str) -> None:
    """The network is there and nobody answers: no page event tells the app."""
    phone.open()
    cold, warm = cold_and_warm(phone, url, SLOWED)
    phone.close()
    say_starts("cold start, processor ÷ 4, server dead", cold)
    say_starts("warm start, processor ÷ 4, server dead", warm)


def logging(phone: Phone, url: str, event: str = "500 reports") -> None:
    """The commonest hit, so many times: corner, wheel, bent (it stands there already), save."""
    page = phone.page
    phone.slow(SLOWED)
    page.goto("about:blank")
    page.goto(f"{url}/")
    log_a_hit(phone)  # what is loaded when it is first wanted is not of the commonest hit
    page.evaluate("() => { handWatch.tasks.length = handWatch.answers.length = 0; }")
    for _ in range(HITS):
        log_a_hit(phone)
    tasks, answers = page.evaluate("[handWatch.tasks, handWatch.answers]")
    phone.slow(1)
    found = long_tasks(length for _, length in tasks)
    told = ", ".join(f"{task:.0f}" for task in found[:8])
    say(f"logging {HITS} hits, {event}, processor ÷ 4", f"{len(found)} tasks over 50 ms: {told or 'none'}")
    painted = [length for _, length in answers]
    say("  a tap until its answer is painted", spread(painted).says("ms") if painted else "all under 16 ms")


def log_a_hit(phone: Phone) -> None:
    """Log a bent wheel with taps, as a hand does it, and go back to the drawing."""
    phone.tap("g.zone", "Front left")
    phone.tap("label", "Wheel rim")
    phone.tap(".save-bar button", "Save")
    phone.tap("button", "Log another")


def memory_and_scrolling_of_a_mechanic(made: Bench) -> None:
    """The queue with its 500 jobs, on a phone that may read it."""
    phone = made.phone("mechanic")
    phone.page.goto(made.link(MECHANIC))
    rows = phone.page.locator(".queue .ui-row")
    rows.first.wait_for()
    phone.settle()
    scrolling(phone, "queue")
    jobs, nodes = rows.count(), phone.page.locator("*").count()
    say(f"elements of a queue with {jobs} jobs", f"{nodes} (4000 wanted)")
    phone.close()


def a_season_held(made: Bench) -> None:
    """As many entries as a season has: fetched at once, opened offline, and what happens until a new one is seen."""
    phone = made.phone("season")
    phone.slow(SLOWED)
    began = time.perf_counter()
    phone.page.goto(made.link(MECHANIC))
    wait_for_all(phone)
    say(f"fetching {HELD} entries, processor ÷ 4", f"{time.perf_counter() - began:.1f} s (6 wanted)")
    phone.page.locator(".queue .ui-row").first.wait_for()
    phone.settle()
    say_memory(phone, f"queue with {HELD} entries kept")
    seen = []
    reports = [entry for entry in log(HELD + 100)[HELD:] if b'"report.filed"' in entry and b'"car": "41"' in entry]
    for entry in reports[:STARTS]:
        until = phone.page.evaluate_handle(SHOWN)
        sent = time.perf_counter()
        made.server.send([entry], HELD)
        until.evaluate("told => told.is")
        seen.append((time.perf_counter() - sent) * 1000)
    say(f"a new entry until shown, {HELD} kept, ÷ 4", f"{spread(seen).says('ms')} (1000 wanted)")
    phone.close()
    crew = made.phone("season-crew")
    crew.start(made.link(CREW))
    wait_for_all(crew)
    crew.settle()
    cold, warm = cold_and_warm(crew, made.line.url, SLOWED, offline=True)
    say_starts(f"cold start, {HELD} kept, ÷ 4, offline", cold)
    say_starts(f"warm start, {HELD} kept, ÷ 4, offline", warm)
    crew.context.set_offline(False)
    logging(crew, made.line.url, f"{HELD} entries kept")
    crew.close()


def wait_for_all(phone: Phone) -> None:
    """Wait until the phone holds the whole log; not asked before the app has made its store."""
    phone.page.get_by_role("heading", level=1).first.wait_for()
    phone.page.get_by_role("combobox", name="Which car").or_(phone.page.get_by_role("button", name="Car 41")).wait_for()
    while phone.page.evaluate(HOLDS) < HELD:
        phone.page.wait_for_timeout(100)


def scrolling(phone: Phone, screen: str) -> None:
    """Swipe down a long screen, with and without the slowed processor, and count frames that were not drawn."""
    page = phone.page
    page.evaluate("where => { location.hash = where; }", f"#/{screen}")
    page.get_by_role("heading", level=1).first.wait_for()
    page.wait_for_timeout(3000)
    for slowed in (1.0, SLOWED):
        phone.slow(slowed)
        page.evaluate("scrollTo(0, 0)")
        page.wait_for_timeout(500)
        dropped, due = dropped_frames(phone.swipe(SCROLL_PX, SCROLL_PX_PER_S))
        says = "" if slowed == 1 else ", processor ÷ 4"
        say(f"scrolling {screen}{says}", f"{dropped} of {due} frames dropped")
    phone.slow(1)
    say_memory(phone, screen)


def say_memory(phone: Phone, what: str) -> None:
    """Print what the page takes."""
    held = phone.resident_bytes()
    page, whole = held.get("renderer", 0), sum(held.values())
    heap = phone.heap_bytes()
    found = f"heap {heap / 1e6:.1f} MB, page's process {page / 1e6:.0f} MB, browser whole {whole / 1e6:.0f} MB"
    say(f"memory, {what}", found)


def say_starts(what: str, found: list[Start]) -> None:
    """Print when the first tap is answered, and the longest task until then."""
    tappable: Spread = spread([one.tappable_ms for one in found])
    longest = spread([one.longest_ms for one in found])
    say(what, f"{tappable.says('ms')}; longest task {longest.median:.0f} ms, worst {longest.worst:.0f}")


def say(what: str, result: str) -> None:
    """Print one line of the table."""
    print(f"{what:56}{result}", flush=True)


if __name__ == "__main__":
    main()
