"""What follows from the log, kept up row by row: findings of each report, jobs of each car."""

from collections.abc import Iterable, Sequence
from decimal import Decimal

import msgspec

from shuntbook.fold.report import Finding
from shuntbook.queue.job import Job
from shuntbook.store.connection import Database

_FINDING = msgspec.json.Decoder(Finding)
_JOB = msgspec.json.Decoder(Job)
_USED = msgspec.json.Decoder(dict[str, Decimal])


def upto(db: Database) -> int:
    """Return the log's cursor up to which findings and jobs are those of the log."""
    row = db.conn.execute("SELECT value FROM meta WHERE key = 'projected'").fetchone()
    return int(row[0]) if row else 0


def reach(db: Database, cursor: int) -> None:
    """Say that findings and jobs are those of the log up to a cursor."""
    db.conn.execute("INSERT OR REPLACE INTO meta VALUES ('projected', ?)", [str(cursor)])


def put_report(db: Database, event: str, car: str, report: str, findings: Sequence[Finding]) -> set[str]:
    """Put a report's findings in place of those before; return the jobs that either names."""
    where = "event = ? AND car = ? AND report = ?"
    old = db.conn.execute(f"SELECT job FROM finding WHERE {where}", [event, car, report]).fetchall()
    db.conn.execute(f"DELETE FROM finding WHERE {where}", [event, car, report])
    db.conn.executemany(
        "INSERT INTO finding VALUES (?, ?, ?, ?, ?, ?)",
        [(event, car, report, f.key, f.entry, msgspec.json.encode(f)) for f in findings],
    )
    return {row[0] for row in old} | {finding.key for finding in findings}


def findings_on(db: Database, event: str, car: str, job: str) -> list[Finding]:
    """Return the reports' findings that name a job."""
    # Left to itself, SQLite goes through all of the car's findings by the primary key, for each job again.
    rows = db.conn.execute(
        "SELECT value FROM finding INDEXED BY finding_by_job WHERE event = ? AND car = ? AND job = ?",
        [event, car, job],
    )
    return [_FINDING.decode(row[0]) for row in rows]


def findings(db: Database, event: str, car: str) -> list[tuple[str, Finding]]:
    """Return all findings of a car with the report that each is of."""
    rows = db.conn.execute("SELECT report, value FROM finding WHERE event = ? AND car = ?", [event, car])
    return [(row[0], _FINDING.decode(row[1])) for row in rows]


def put_job(db: Database, event: str, car: str, key: str, job: Job | None) -> None:
    """Put a job in place of the one before; None takes it away."""
    if job is None:
        db.conn.execute("DELETE FROM job WHERE event = ? AND car = ? AND job = ?", [event, car, key])
        return
    row = (
        event,
        car,
        key,
        msgspec.json.encode(job),
        msgspec.json.encode(job.used).decode(),
    )
    db.conn.execute("INSERT OR REPLACE INTO job VALUES (?, ?, ?, ?, ?)", row)


def jobs(db: Database, event: str, car: str) -> list[Job]:
    """Return the jobs of a car, by key."""
    rows = db.conn.execute("SELECT value FROM job WHERE event = ? AND car = ? ORDER BY job", [event, car])
    return [_JOB.decode(row[0]) for row in rows]


def used(db: Database, event: str) -> Iterable[dict[str, Decimal]]:
    """Return the parts used on each job of all cars of the event."""
    rows = db.conn.execute("SELECT used FROM job WHERE event = ? AND used != '{}'", [event])
    return [_USED.decode(row[0]) for row in rows]


def forget(db: Database, event: str) -> None:
    """Drop what follows for an event, before a rebuild."""
    db.conn.execute("DELETE FROM finding WHERE event = ?", [event])
    db.conn.execute("DELETE FROM job WHERE event = ?", [event])
