"""The tables, one migration after the other; a released one is never edited."""

from shuntbook.kit.canonical import digest_of
from shuntbook.kit.errors import BadSetup
from shuntbook.setup.defaults import with_first
from shuntbook.setup.folder import read_setup
from shuntbook.store import first_rules, log, projections, setups
from shuntbook.store.connection import Database, Migrations
from shuntbook.store.refresh import rebuild_all

migrations = Migrations("shuntbook")

FIRST = (
    "CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT",
    # The log. `cursor` is the commit sequence: what a phone pulls by, so that a slow commit is never skipped.
    """CREATE TABLE entry (cursor INTEGER PRIMARY KEY AUTOINCREMENT, id TEXT NOT NULL UNIQUE, event TEXT NOT NULL,
       car TEXT NOT NULL, kind TEXT NOT NULL, subject TEXT NOT NULL, person TEXT NOT NULL, device TEXT NOT NULL,
       seq INTEGER NOT NULL, raw BLOB NOT NULL, received_at TEXT NOT NULL, skew_s REAL, brought_by TEXT) STRICT""",
    "CREATE INDEX entry_by_subject ON entry (event, car, subject)",
    "CREATE INDEX entry_by_kind ON entry (event, car, kind)",
    # What each entry.voided names, also before its target is here.
    "CREATE TABLE void (target TEXT NOT NULL, by_entry TEXT NOT NULL, PRIMARY KEY (target, by_entry)) STRICT",
    """CREATE TABLE set_aside (sha256 TEXT PRIMARY KEY, id TEXT, event TEXT, car TEXT, raw BLOB NOT NULL,
       code TEXT NOT NULL, what TEXT NOT NULL, received_at TEXT NOT NULL, brought_by TEXT,
       reviewed_at TEXT, reviewed_by TEXT, reason TEXT) STRICT""",
    # Set-ups: the files' bytes once each, every version kept, one in force per event.
    "CREATE TABLE file (sha256 TEXT PRIMARY KEY, bytes BLOB NOT NULL) STRICT",
    """CREATE TABLE setup (version TEXT NOT NULL, event TEXT NOT NULL, rates TEXT NOT NULL, files TEXT NOT NULL,
       PRIMARY KEY (event, version)) STRICT""",
    "CREATE TABLE event (event TEXT PRIMARY KEY, version TEXT NOT NULL) STRICT",
    # What follows from the log and the set-up in force; `shuntbook check` holds it against a rebuild.
    """CREATE TABLE finding (event TEXT NOT NULL, car TEXT NOT NULL, report TEXT NOT NULL, job TEXT NOT NULL,
       entry TEXT NOT NULL, value BLOB NOT NULL, PRIMARY KEY (event, car, report, job, entry)) STRICT, WITHOUT ROWID""",
    "CREATE INDEX finding_by_job ON finding (event, car, job)",
    """CREATE TABLE job (event TEXT NOT NULL, car TEXT NOT NULL, job TEXT NOT NULL, value BLOB NOT NULL,
       used TEXT NOT NULL, PRIMARY KEY (event, car, job)) STRICT, WITHOUT ROWID""",
    """CREATE TABLE photo (photo TEXT PRIMARY KEY, type TEXT NOT NULL, width INTEGER NOT NULL,
       height INTEGER NOT NULL, bytes INTEGER NOT NULL, received_at TEXT NOT NULL) STRICT""",
    """CREATE TABLE invite (code_hash TEXT PRIMARY KEY, person TEXT NOT NULL, made_at TEXT NOT NULL,
       used_at TEXT) STRICT""",
    """CREATE TABLE device (device TEXT PRIMARY KEY, person TEXT NOT NULL, token_hash TEXT NOT NULL UNIQUE,
       joined_at TEXT NOT NULL, shut_out_at TEXT) STRICT""",
)


@migrations()
def first_release(db: Database) -> None:
    """Create the tables of the first release."""
    for statement in FIRST:
        db.execute(statement)


SECOND = (
    # Public keys by device, also of devices that joined a server that is lost; a key is never replaced.
    """CREATE TABLE device_key (device TEXT PRIMARY KEY, person TEXT NOT NULL, key TEXT, shut_out_at TEXT) STRICT""",
    "INSERT INTO device_key SELECT device, person, NULL, shut_out_at FROM device",
    # Entries taken without a signature of their own: loaded by the machine's owner, or where none is demanded.
    "CREATE TABLE trusted (id TEXT PRIMARY KEY, sha256 TEXT NOT NULL) STRICT",
    "ALTER TABLE invite ADD COLUMN expires_at TEXT",
    "ALTER TABLE set_aside ADD COLUMN verdict TEXT",
)


@migrations()
def signatures(db: Database) -> None:
    """Add what signatures need, invites that run out, and what a manager decided of entries set aside."""
    for statement in SECOND:
        db.execute(statement)
    for name, raw in db.conn.execute("SELECT id, raw FROM entry").fetchall():
        db.execute("INSERT INTO trusted VALUES (?, ?)", [name, digest_of(raw)])


@migrations()
def inspections_with_checks(db: Database) -> None:
    """Fold every log by the rules of today: what passes, what a replaced version leaves and who worked are new."""
    rebuild_all(db)


@migrations()
def last_numbers(db: Database) -> None:
    """Give each shut-out the last number believed: the highest that the log holds, where no number was kept."""
    db.execute("ALTER TABLE device_key ADD COLUMN last_seq INTEGER")
    db.execute(
        "UPDATE device_key SET last_seq ="
        " (SELECT coalesce(max(seq), 0) FROM entry WHERE entry.device = device_key.device)"
        " WHERE shut_out_at IS NOT NULL"
    )


@migrations()
def maps_of_held_events(db: Database) -> None:
    """Write the car map and the check lists of release 0.1 into each event that has none of its own.

    The package's own are others since: they count for new events, and a held one keeps those that it began with.
    """
    for event in setups.events(db):
        try:
            files = with_first(setups.files_of(db, event, setups.in_force(db, event) or ""))
            setups.put(db, read_setup(files, stored=True), files)
        except BadSetup:
            # What can't be read had nothing that follows before, either, and stays as it is until a set-up comes.
            continue
    rebuild_all(db)


@migrations()
def projected(db: Database) -> None:
    """Say how far reports and jobs are brought forward: up to now each entry was folded as it came in."""
    projections.reach(db, log.last_cursor(db))


FIFTH = (
    "CREATE TABLE owner (person TEXT PRIMARY KEY, since TEXT NOT NULL) STRICT",
    # A folder that holds a log already is of a release that knew no owner.
    "INSERT INTO meta SELECT 'owners', 'every-manager' FROM meta WHERE key = 'log_id'",
    # In which log a device joined: in a rebuild, who was let into it may bring what it lacks.
    "ALTER TABLE device ADD COLUMN log_id TEXT",
    # Of which events a device was sent entries: one more, and it is sent them from the start.
    "ALTER TABLE device ADD COLUMN events TEXT",
    """CREATE TABLE rebuild_act (number INTEGER PRIMARY KEY, at TEXT NOT NULL, person TEXT NOT NULL, act TEXT NOT NULL,
       what TEXT NOT NULL) STRICT""",
    # Invites for people who had a device already, until one who had it says that it is known.
    """CREATE TABLE second_invite (number INTEGER PRIMARY KEY, code_hash TEXT NOT NULL UNIQUE, person TEXT NOT NULL,
       invited_by TEXT, at TEXT NOT NULL, device TEXT, known_at TEXT) STRICT""",
)


@migrations()
def owners_and_rebuilds(db: Database) -> None:
    """Add who owns the log, what was done in a rebuild, and invites for people who have a device."""
    for statement in FIFTH:
        db.execute(statement)


@migrations()
def second_keys(db: Database) -> None:
    """Add the key of a device that only its person's PIN unlocks."""
    db.execute("ALTER TABLE device_key ADD COLUMN second_key TEXT")


@migrations()
def papers_that_went_out(db: Database) -> None:
    """Add which file is the paper of an entry: an issued statement is printed again as it was printed first."""
    db.execute(
        "CREATE TABLE printed (entry TEXT NOT NULL, paper TEXT NOT NULL, sha256 TEXT NOT NULL,"
        " PRIMARY KEY (entry, paper)) STRICT"
    )


@migrations()
def passes_of_the_first_release(db: Database) -> None:
    """Say up to where the log was folded by the rules of 0.1: what it counted and today's rules do not is told once."""
    first_rules.keep_upto(db, log.last_cursor(db))


@migrations()
def what_waits_by_car(db: Database) -> None:
    """Add a way to what waits that passes over the bytes: each queue asks for it."""
    db.execute("CREATE INDEX set_aside_waiting ON set_aside (event, car, id, sha256) WHERE reviewed_at IS NULL")
