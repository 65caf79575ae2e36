"""What several commands share: their options, and how an answer is printed."""

from collections.abc import Iterable
from pathlib import Path
from typing import Any

import click

from shuntbook.config import data_folder
from shuntbook.kit.canonical import json_text
from shuntbook.kit.errors import Fault, NotFound
from shuntbook.store.database import FILE, Store

data_option = click.option(
    "--data",
    type=click.Path(file_okay=False, path_type=Path),
    help="Folder the data lives in (default: SHUNTBOOK_DATA, else the user data folder).",
)
event_option = click.option("--event", required=True, help="The event's name in event.toml.")
car_option = click.option("--car", required=True, help="The car's number.")
json_option = click.option("--json", "as_json", is_flag=True, help="Print exactly what the API returns.")


def held_folder(data: Path | None) -> Path:
    """Return the data folder, which must hold data: who only asks makes no store. Errors: NotFound, with what to do."""
    folder = data_folder(data)
    if not (folder / FILE).is_file():
        raise NotFound(
            f"{folder} holds no data of Shuntbook's; name the folder that does with --data or SHUNTBOOK_DATA, or fill"
            " one with `shuntbook load`, `shuntbook restore` or `shuntbook bundle import`"
        )
    return folder


def held_store(data: Path | None) -> Store:
    """Return the store in the data folder, which must hold one. Errors: NotFound."""
    return Store(held_folder(data))


def tell_warnings(warnings: Iterable[Fault]) -> None:
    """Tell on the error stream what was taken and deserves to be told, so that what is printed stays as it is."""
    for warning in warnings:
        click.echo(f"Taken, but: {warning}", err=True)


def show(answer: Any, as_json: bool, words: str) -> None:
    """Print an answer, as JSON or as words."""
    click.echo(json_text(answer) if as_json else words)
