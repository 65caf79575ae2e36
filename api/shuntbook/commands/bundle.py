"""The `shuntbook bundle` commands: hand over without a network."""

from dataclasses import asdict
from pathlib import Path

import click

from shuntbook.commands.options import data_option, held_store, json_option, show
from shuntbook.commands.text_store import exported_text, imported_text
from shuntbook.config import data_folder
from shuntbook.flow.bundle_export import export_bundle
from shuntbook.flow.bundle_import import Choice, import_bundle
from shuntbook.flow.clock import now
from shuntbook.store.database import Store
from shuntbook.wire.bundle_check import Bundle


@click.group("bundle")
def bundle_commands() -> None:
    """Hand over without a network, as one file."""


@bundle_commands.command("export")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
@click.option("--event", help="Only this event.")
@data_option
@json_option
def bundle_export_command(file: Path, event: str | None, data: Path | None, as_json: bool) -> None:
    """Write entries, photos, set-ups and devices to FILE, while the server may go on."""
    exported = export_bundle(held_store(data), file, event, now())
    show(asdict(exported), as_json, exported_text(file, exported))


@bundle_commands.command("import")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--setup", is_flag=True, help="Believe its set-ups beside events held here, and in their place.")
@click.option("--trust", is_flag=True, help="Believe its devices and unsigned entries beside an event held here.")
@data_option
@json_option
def bundle_import_command(file: Path, setup: bool, trust: bool, data: Path | None, as_json: bool) -> None:
    """Take in FILE from another server or a phone; a damaged one is refused whole."""
    folder = data_folder(data)
    if not folder.exists():
        # A file that is refused leaves no empty store behind.
        with Bundle(file):
            pass
    imported = import_bundle(Store(folder), file, Choice(setup, trust), now())
    show(asdict(imported), as_json, imported_text(file, imported))
