"""Prints what each part costs beside something bare that does the same bytes, in one run."""

import base64
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from statistics import median

import msgspec
from cryptography.hazmat.primitives.asymmetric.ec import ECDSA, SECP256R1, generate_private_key
from cryptography.hazmat.primitives.asymmetric.utils import decode_dss_signature
from cryptography.hazmat.primitives.hashes import SHA256
from marshmallow import INCLUDE, Schema, fields

from bench.entries import CARS, EVENT, event_folder, log
from bench.server import serving
from shuntbook.flow import answers, ingest
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.kit.signing import is_good, signed_bytes
from shuntbook.report.entry import parse_entry
from shuntbook.store.database import Store
from shuntbook.store.refresh import rebuild

SIZE, BATCH = 10_000, 100
ROOT = Path(__file__).resolve().parent.parent


def main() -> None:
    """Run every measurement and print a line for each."""
    entries = log(SIZE)
    with tempfile.TemporaryDirectory() as folder:
        ingest_over_http(Path(folder) / "http", entries)
        one_more_against_rebuild(Path(folder) / "one", entries)
    checking_a_batch(entries[:BATCH])
    believing_a_batch(entries[:BATCH])
    say_budget()


def ingest_over_http(folder: Path, entries: list[bytes]) -> None:
    """Batches of 100 over HTTP against a bare sqlite3 insert of the same bytes; then the server's memory."""
    load(Store(folder), event_folder(folder.with_name("event")), now())
    batches = [entries[i : i + BATCH] for i in range(0, len(entries), BATCH)]
    with serving(folder, "p-vera") as server:
        cursor = server.send([], 0)
        times = []
        for batch in batches:
            started = time.perf_counter()
            cursor = server.send(batch, cursor)
            times.append(time.perf_counter() - started)
        bare = bare_inserts(folder / "bare.sqlite", batches)
        ratio = sum(times) / bare
        say("ingest, 100 entries over HTTP", f"{median(times) * 1000:.1f} ms a batch, median of {len(times)}")
        say("  against a bare sqlite3 insert", f"{ratio:.1f} × ({bare / len(batches) * 1000:.2f} ms a batch)")
        for car in CARS:
            server.call("GET", f"/events/{EVENT}/cars/{car}/queue")
        say(f"server with {SIZE} entries", f"{server.resident_mib():.0f} MiB (at most 150 wanted)")


def bare_inserts(path: Path, batches: list[list[bytes]]) -> float:
    """Insert the same bytes with nothing but sqlite3, one durable transaction a batch; return the seconds."""
    connection = sqlite3.connect(path, isolation_level=None)
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("CREATE TABLE entry (cursor INTEGER PRIMARY KEY, raw BLOB NOT NULL) STRICT")
    started = time.perf_counter()
    for batch in batches:
        connection.execute("BEGIN IMMEDIATE")
        connection.executemany("INSERT INTO entry (raw) VALUES (?)", [(raw,) for raw in batch])
        connection.execute("COMMIT")
    seconds = time.perf_counter() - started
    connection.close()
    return seconds


def one_more_against_rebuild(folder: Path, entries: list[bytes]) -> None:
    """Take one new entry and read the queue, against rebuilding all of the log and reading it."""
    store = Store(folder)
    load(store, event_folder(folder.with_name("event-of-one")), now())
    more = log(SIZE + 40)[SIZE:]
    for start in range(0, SIZE, 500):
        ingest.ingest(store, batch_of(entries[start : start + 500]))
    one = median(timed(partial(one_more, store, raw)) for raw in more)
    whole = median(timed(lambda: rebuilt(store)) for _ in range(3))
    say("one new entry, then the queue", f"{one * 1000:.1f} ms, median of {len(more)}")
    say(f"rebuild of {SIZE} entries, then the queue", f"{whole * 1000:.0f} ms: {whole / one:.0f} × as much (50 wanted)")


def one_more(store: Store, raw: bytes) -> None:
    """Take one entry and read the queue of its car."""
    ingest.ingest(store, Batch(raw))
    answers.queue(store, EVENT, parse_entry(raw).car)


def Batch(raw: bytes) -> ingest.Batch:
    """Return a batch of one entry from a phone that has heard everything."""
    return batch_of([raw])


def batch_of(entries: list[bytes]) -> ingest.Batch:
    """Return a batch from a phone that has heard everything before."""
    return ingest.Batch(entries, 10**9, "another", "d-bench", now(), None)


def rebuilt(store: Store) -> None:
    """Make everything again from the log and read one queue."""
    with store.write() as db:
        rebuild(db, EVENT)
    answers.queue(store, EVENT, CARS[0])


class EnvelopeSchema(Schema):
    """The entry's envelope as marshmallow would check it."""

    class Meta:
        unknown = INCLUDE

    id = fields.UUID(required=True)
    v = fields.Integer(required=True)
    kind = fields.String(required=True)
    event = fields.String(required=True)
    car = fields.String(required=True)
    subject = fields.String(required=True, allow_none=True)
    at = fields.AwareDateTime(required=True)
    device = fields.String(required=True)
    seq = fields.Integer(required=True)
    person = fields.String(required=True)
    data = fields.Dict(required=True)


def checking_a_batch(batch: list[bytes]) -> None:
    """Check 100 entries as the server does, against marshmallow on their envelopes alone."""
    schema = EnvelopeSchema(many=True)
    ours = median(timed(lambda: [parse_entry(raw) for raw in batch]) for _ in range(30))
    theirs = median(timed(lambda: schema.load([msgspec.json.decode(raw) for raw in batch])) for _ in range(30))
    say(
        "checking 100 entries, data and all",
        f"{ours * 1000:.2f} ms; marshmallow, envelope alone: {theirs / ours:.1f} ×",
    )


def believing_a_batch(batch: list[bytes]) -> None:
    """Check the signatures of 100 entries, against the bare ECDSA of the same bytes."""
    key = generate_private_key(SECP256R1())
    signed = [(raw, signed_bytes(msgspec.json.decode(raw))) for raw in batch]
    ders = [key.sign(message, ECDSA(SHA256())) for _, message in signed]
    texts = [_signature_text(der) for der in ders]
    public = key.public_key()

    def ours() -> list[bool]:
        together = zip(signed, texts, strict=True)
        return [is_good(text, signed_bytes(msgspec.json.decode(raw)), public) for (raw, _), text in together]

    def bare() -> None:
        for (_, message), der in zip(signed, ders, strict=True):
            public.verify(der, message, ECDSA(SHA256()))

    if not all(ours()):
        raise RuntimeError("a good signature was not believed")
    whole, least = (median(timed(work) for _ in range(30)) for work in (ours, bare))
    say("believing 100 signed entries", f"{whole * 1000:.1f} ms, {whole / least:.1f} × the bare ECDSA of cryptography")


def _signature_text(der: bytes) -> str:
    r, s = decode_dss_signature(der)
    return base64.urlsafe_b64encode(r.to_bytes(32) + s.to_bytes(32)).rstrip(b"=").decode()


def say_budget() -> None:
    """Print the size of the app's first screen."""
    done = subprocess.run(
        [sys.executable, str(ROOT / "tools" / "node.py"), "run", "--silent", "budget"],
        capture_output=True,
        text=True,
        check=False,
    )
    say("first screen", done.stdout.strip() or done.stderr.strip())


def timed(work: Callable[[], object]) -> float:
    """Return the seconds that a piece of work takes."""
    started = time.perf_counter()
    work()
    return time.perf_counter() - started


def say(what: str, result: str) -> None:
    """Print one line of the table."""
    print(f"{what:44}{result}", flush=True)


if __name__ == "__main__":
    main()
