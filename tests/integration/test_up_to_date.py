"""Taking entries in only appends them; whoever reads what follows finds it brought forward, whatever came between."""

import threading

from making import Pen, raw
from phone import EVENT, NOW
from shuntbook.flow import answers, diagnostics
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.store import log, projections
from shuntbook.store.database import Store
from shuntbook.store.refresh import rebuild

WHEELS = ("front-left/wheel", "front-right/wheel", "rear-left/wheel", "rear-right/wheel")


def taken_in(store: Store, *entries) -> None:
    ingest(store, Batch([raw(entry) for entry in entries], 0, None, None, NOW, None))


def behind(store: Store) -> int:
    with store.read() as db:
        return log.last_cursor(db) - projections.upto(db)


def test_a_batch_is_only_appended_and_the_first_queue_has_all_that_came(sample_store):
    pens = [Pen(EVENT, "41", 5000), Pen(EVENT, "42", 6000)]
    answers.queue(sample_store, EVENT, "41")
    for wheel in WHEELS:
        taken_in(sample_store, *(pen.filed(f"{wheel} bent") for pen in pens))
    assert behind(sample_store) == 8
    queues = [answers.queue(sample_store, EVENT, car) for car in ("41", "42")]
    assert behind(sample_store) == 0
    with sample_store.write() as db:
        rebuild(db, EVENT)
    assert queues == [answers.queue(sample_store, EVENT, car) for car in ("41", "42")]


def test_an_undo_reaches_a_job_that_was_brought_forward_before(sample_store):
    pen = Pen(EVENT, "41", 5000)
    hit = pen.filed("front-left/wheel bent")
    done = pen.finished("front-left/wheel", hit)
    taken_in(sample_store, hit, done)
    states = [state(sample_store)]
    taken_in(sample_store, pen.voided(done, done["person"]))
    assert [*states, state(sample_store)] == ["finished", "open"]


def state(store: Store) -> str:
    jobs = answers.queue(store, EVENT, "41").jobs
    return next(job.state for job in jobs if job.job == "front-left/wheel")


def test_who_reads_while_others_send_never_sees_jobs_of_fewer_entries_than_it_counts(sample_store):
    pen = Pen(EVENT, "41", 5000)
    hits = [pen.filed("front-left/wheel bent") for _ in range(40)]
    before = answers.queue(sample_store, EVENT, "41")
    known = {finding for job in before.jobs for finding in job.findings}
    seen: list[tuple[int, int]] = []
    sent = threading.Event()

    def read() -> None:
        while not sent.is_set() or not seen or seen[-1][0] < len(hits):
            queue = answers.queue(sample_store, EVENT, "41")
            wheel = next((job for job in queue.jobs if job.job == "front-left/wheel"), None)
            mine = set(wheel.findings) - known if wheel else set()
            seen.append((queue.entries - before.entries, len(mine)))

    reader = threading.Thread(target=read)
    reader.start()
    for hit in hits:
        taken_in(sample_store, hit)
    sent.set()
    reader.join(timeout=120)
    assert not reader.is_alive()
    assert [pair for pair in seen if pair[0] != pair[1]] == []
    assert diagnostics.check(sample_store) == []


def test_check_brings_forward_what_nobody_has_read_yet(sample_store):
    taken_in(sample_store, Pen(EVENT, "41", 5000).filed("front-left/wheel broken"))
    assert behind(sample_store) == 1
    assert diagnostics.check(sample_store) == []
    assert behind(sample_store) == 0
