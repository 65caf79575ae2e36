"""The commands that fill a data folder, look after it and copy it, and let people in."""

import sys
from pathlib import Path

import click

from shuntbook.commands.options import data_option, held_folder, held_store, json_option, show, tell_warnings
from shuntbook.commands.text_store import backup_text, check_text, restore_text
from shuntbook.config import URL, data_folder
from shuntbook.flow import backups, diagnostics, joining
from shuntbook.flow.clock import now
from shuntbook.flow.load import demand_event_folder, read_folder, take_folder
from shuntbook.store.database import Store
from shuntbook.store.refresh import rebuild


@click.command("load")
@click.argument("folder", type=click.Path(path_type=Path))
@data_option
@json_option
def load_command(folder: Path, data: Path | None, as_json: bool) -> None:
    """Load an event folder: set-up, entries and photos, all or nothing."""
    demand_event_folder(folder)
    content = read_folder(folder)
    done = take_folder(Store(data_folder(data)), content, now())
    tell_warnings(done.warnings)
    fields = {
        "event": done.event,
        "new": done.new,
        "held": done.held,
        "photos": done.photos,
    }
    words = f"{done.event}: {done.new} entries new, {done.held} held already, {done.photos} photos."
    show(fields, as_json, words)


@click.command("check")
@data_option
@json_option
def check_command(data: Path | None, as_json: bool) -> None:
    """Check the store: database, entries, photos, what is kept up against a rebuild, gaps in devices' numbers."""
    found = diagnostics.look_over(held_folder(data))
    devices = [device._asdict() for device in found.devices]
    show({"problems": found.problems, "notes": found.notes, "devices": devices}, as_json, check_text(found))
    if found.problems:
        sys.exit(1)


@click.command("invite")
@click.option("--person", required=True, help="The person's name in event.toml, such as p-maru.")
@click.option("--url", default=URL, show_default=True, help="Address that the phone reaches the server at.")
@data_option
@json_option
def invite_command(person: str, url: str, data: Path | None, as_json: bool) -> None:
    """Make a join link for a person; it works once."""
    code = joining.invite(Store(data_folder(data)), person, now())
    link = joining.join_link(url, code)
    show({"code": code, "link": link}, as_json, f"{link}\nThe link works once. Open it on {person}'s phone.")


@click.command("rebuild")
@click.option("--event", required=True, help="The event's name in event.toml.")
@data_option
def rebuild_command(event: str, data: Path | None) -> None:
    """Rebuild an event's reports and jobs from its log."""
    with held_store(data).write() as db:
        rebuild(db, event)
    click.echo(f"{event}: rebuilt from the log.")


@click.command("backup")
@click.argument("file", type=click.Path(path_type=Path))
@data_option
def backup_command(file: Path, data: Path | None) -> None:
    """Copy the store to FILE while the server may go on: with photos to a .zip, else the database alone."""
    click.echo(backup_text(file, backups.backup(held_store(data), file)))


@click.command("restore")
@click.argument("file", type=click.Path(path_type=Path))
@data_option
def restore_command(file: Path, data: Path | None) -> None:
    """Bring a copy back into a new data folder; phones then send all that they hold."""
    folder = data_folder(data)
    click.echo(restore_text(file, folder, backups.restore(file, folder)))
