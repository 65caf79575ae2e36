"""Prints what a season's cost sheets and a cost statement with 200 photos take, beside a bare run of Typst."""

import hashlib
import io
import json
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import typst
from PIL import Image

from bench.invented_season import name_of, season
from shuntbook.flow import answers, papers, seasons
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.store.database import Store

EVENTS, ENTRIES, PHOTOS = 20, 1000, 200
SIZE = (1600, 1200)
BARE = """#let names = json(bytes(sys.inputs.names))
#set document(title: "Photos")
#set page(footer: context [#counter(page).display() of #counter(page).final().first()])
#for name in names { figure(image(name, width: 40%, alt: "A photo"), caption: name) }
"""


def main() -> None:
    """Make the season, then measure each part in a process of its own, so that its peak of memory is its own."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        pictures = make(folder)
        one = run("sheet", folder)
        say(f"cost sheets of {EVENTS} events, {EVENTS * ENTRIES} entries", one)
        say("  the season's answer, all of them again", run("season", folder))
        page = run("pdf", folder)
        bare = run("bare", pictures)
        say(f"cost statement with {PHOTOS} photos as PDF", page)
        say("  bare Typst, the same photos as they are", bare)
        ratios = ", ".join(f"{page[key] / bare[key]:.2f} × the {key}" for key in ("seconds", "MiB"))
        print(f"{'  against the bare run':44}{ratios}", flush=True)


def make(folder: Path) -> Path:
    """Load the season, its first event with photos on its reports; return the folder of the pictures."""
    store = Store(folder / "data")
    written = season(folder / "events", EVENTS, ENTRIES)
    pictures = folder / "pictures"
    pictures.mkdir()
    with_photos(written[0], pictures)
    for event in written:
        load(store, event, now())
    store.db.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return pictures


def with_photos(event: Path, pictures: Path) -> None:
    """Give the event's reports PHOTOS pictures, as a phone sends them."""
    entries = [json.loads(line) for line in (event / "entries.jsonl").read_text().splitlines()]
    reports = [entry for entry in entries if entry["kind"] == "report.filed"]
    (event / "photos").mkdir()
    for number in range(PHOTOS):
        data = picture(number)
        digest = hashlib.sha256(data).hexdigest()
        for place in (event / "photos", pictures):
            (place / f"{digest}.jpg").write_bytes(data)
        reports[number % len(reports)]["data"].setdefault("photos", []).append(digest)
    (event / "entries.jsonl").write_text("".join(json.dumps(entry) + "\n" for entry in entries))


def picture(number: int) -> bytes:
    """Return a picture of its own, about as large as one from a phone after shrinking."""
    rough = Image.effect_noise((SIZE[0] // 8, SIZE[1] // 8), 40 + number % 60).resize(SIZE)
    data = io.BytesIO()
    rough.convert("RGB").save(data, "JPEG", quality=80)
    return data.getvalue()


def run(part: str, folder: Path) -> dict[str, float]:
    """Run one part in a process of its own; return its figures."""
    command = [sys.executable, "-m", "bench.costs", part, str(folder)]
    return dict(json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout))


def measured(part: str, folder: Path) -> dict[str, float]:
    """Return the seconds and the peak of memory in MiB that a part takes, its process included."""
    started = time.perf_counter()
    size = PARTS[part](folder)
    seconds = time.perf_counter() - started
    return {"seconds": seconds, "MiB": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024, "bytes": size}


def sheets(folder: Path) -> int:
    """Calculate the cost sheet of each event."""
    store = Store(folder / "data")
    return sum(len(answers.costs(store, name_of(number)).lines) for number in range(EVENTS))


def whole_season(folder: Path) -> int:
    """Answer what the season's screen asks."""
    return len(seasons.season(Store(folder / "data")).events)


def statement(folder: Path) -> int:
    """Set the cost statement of the event with the photos."""
    return len(papers.costs_pdf(Store(folder / "data"), name_of(0), None, None, "a4").data)


def bare(folder: Path) -> int:
    """Let Typst set the same photos on plain pages."""
    (folder / "main.typ").write_text(BARE)
    names = json.dumps(sorted(path.name for path in folder.glob("*.jpg")))
    made = typst.compile(folder / "main.typ", root=folder, sys_inputs={"names": names}, pdf_standards=["ua-1"])
    return len(made)


PARTS = {"sheet": sheets, "season": whole_season, "pdf": statement, "bare": bare}


def say(what: str, figures: dict[str, float]) -> None:
    """Print one line of the table."""
    size = f", {figures['bytes'] / 1e6:.1f} MB" if figures["bytes"] > 1e5 else ""
    print(f"{what:44}{figures['seconds']:.2f} s, {figures['MiB']:.0f} MiB at the peak{size}", flush=True)


if __name__ == "__main__":
    if len(sys.argv) == 3:
        print(json.dumps(measured(sys.argv[1], Path(sys.argv[2]))))
    else:
        main()
