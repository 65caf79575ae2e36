"""The `shuntbook` command. Exit status 0 done, 1 refused with a reason, 2 wrong usage."""

import json
import sys
from pathlib import Path
from typing import Any

import click

from shuntbook import __version__, serving
from shuntbook.config import data_folder
from shuntbook.describing import schema_files
from shuntbook.flow import answers, care, joining
from shuntbook.flow.clock import now
from shuntbook.flow.load import load, rates_files
from shuntbook.flow.refresh import rebuild
from shuntbook.kit.errors import BadSetup, ShuntbookError
from shuntbook.setup.faults import Faults
from shuntbook.setup.rates_files import read_rates
from shuntbook.store.database import Store
from shuntbook.text import costs_text, queue_text, release_text

data_option = click.option(
    "--data",
    type=click.Path(file_okay=False, path_type=Path),
    help="Folder the data lives in (default: SHUNTBOOK_DATA, else the user data folder).",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Print exactly what the API returns.")
event_option = click.option("--event", required=True, help="The event's name in event.toml.")
car_option = click.option("--car", required=True, help="The car's number.")


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="shuntbook")
def commands() -> None:
    """From a hit on a stage to the repair queue, the sign-off and the bill."""


@commands.command("load")
@click.argument("folder", type=click.Path(path_type=Path))
@data_option
@json_option
def load_command(folder: Path, data: Path | None, as_json: bool) -> None:
    """Load an event folder: set-up, entries and photos, all or nothing."""
    done = load(Store(data_folder(data)), folder, now())
    fields = {
        "event": done.event,
        "new": done.new,
        "held": done.held,
        "photos": done.photos,
    }
    words = f"{done.event}: {done.new} entries new, {done.held} held already, {done.photos} photos."
    _print(fields, as_json, words)


@commands.command("queue")
@event_option
@car_option
@data_option
@json_option
def queue_command(event: str, car: str, data: Path | None, as_json: bool) -> None:
    """Print the repair queue of a car."""
    answer = answers.queue(Store(data_folder(data)), event, car)
    _print(answer, as_json, queue_text(answer))


@commands.command("release")
@event_option
@car_option
@data_option
@json_option
def release_command(event: str, car: str, data: Path | None, as_json: bool) -> None:
    """Print whether the log holds a car, and why."""
    answer = answers.release(Store(data_folder(data)), event, car)
    _print(answer, as_json, release_text(answer))


@commands.command("costs")
@event_option
@click.option("--car", help="Only this car.")
@click.option("--rates", help="Reckon with this rate-table version, one that the event once had.")
@data_option
@json_option
def costs_command(event: str, car: str | None, rates: str | None, data: Path | None, as_json: bool) -> None:
    """Print what an event cost, estimate and actual."""
    answer = answers.costs(Store(data_folder(data)), event, car, rates)
    _print(answer, as_json, costs_text(answer))


@commands.group("rates")
def rates_commands() -> None:
    """Rate tables."""


@rates_commands.command("check")
@click.argument("folder", type=click.Path(path_type=Path))
@json_option
def rates_check_command(folder: Path, as_json: bool) -> None:
    """Check a rate table's folder and name every fault."""
    faults = Faults()
    rates = read_rates(rates_files(folder), faults)
    faults.raise_if_any()
    fields = {
        "rates": rates.version,
        "operations": len(rates.operations),
        "parts": len(rates.parts),
    }
    words = f"{folder}: good, {len(rates.operations)} operations, {len(rates.parts)} parts. Version {rates.version}"
    _print(fields, as_json, words)


@commands.command("check")
@data_option
@json_option
def check_command(data: Path | None, as_json: bool) -> None:
    """Check the store: database, photos, and what is kept up against a rebuild."""
    wrong = care.check(Store(data_folder(data)))
    _print({"problems": wrong}, as_json, "\n".join(wrong) or "Nothing wrong was found.")
    if wrong:
        sys.exit(1)


@commands.command("invite")
@click.option("--person", required=True, help="The person's name in event.toml, such as p-maru.")
@click.option("--url", default=serving.URL, show_default=True, help="Address that the phone reaches the server at.")
@data_option
@json_option
def invite_command(person: str, url: str, data: Path | None, as_json: bool) -> None:
    """Make a join link for a person; it works once."""
    code = joining.invite(Store(data_folder(data)), person, now())
    link = serving.join_link(url, code)
    _print({"code": code, "link": link}, as_json, f"{link}\nThe link works once. Open it on {person}'s phone.")


@commands.command("serve")
@click.option("--host", default=serving.HOST, show_default=True)
@click.option("--port", default=serving.PORT, show_default=True, type=click.IntRange(1, 65535))
@data_option
def serve_command(host: str, port: int, data: Path | None) -> None:
    """Serve the app and its API."""
    serving.serve(data_folder(data), host, port)


@commands.command("demo")
@click.option("--host", default=serving.HOST, show_default=True)
@click.option("--port", default=serving.PORT, show_default=True, type=click.IntRange(1, 65535))
@data_option
def demo_command(host: str, port: int, data: Path | None) -> None:
    """Load the sample event into a fresh store and serve it, with a link for each kind of person."""
    with serving.demo_folder(data) as folder:
        for role, link in serving.demo_links(folder, f"http://{host}:{port}"):
            click.echo(f"{role:11}{link}")
        click.echo("Everybody in this demo is invented. Stop it with Ctrl-C.")
        serving.serve(folder, host, port)


@commands.command("rebuild")
@click.option("--event", required=True, help="The event's name in event.toml.")
@data_option
def rebuild_command(event: str, data: Path | None) -> None:
    """Make an event's reports and jobs anew from its log."""
    with Store(data_folder(data)).write() as db:
        rebuild(db, event)
    click.echo(f"{event}: made anew from the log.")


@commands.command("schemas")
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
def schemas_command(folder: Path) -> None:
    """Write OpenAPI 3.1 and the JSON Schemas, made from the code, to FOLDER."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, data in schema_files().items():
        (folder / name).write_bytes(data)
        click.echo(folder / name)


@commands.command("backup")
@click.argument("file", type=click.Path(path_type=Path))
@data_option
def backup_command(file: Path, data: Path | None) -> None:
    """Copy the database to FILE while the server may go on."""
    care.backup(Store(data_folder(data)), file)
    click.echo(f"Copied to {file}. Photos lie beside the database, in the data folder; copy them too.")


def main() -> None:
    """Run the command line; the outermost edge, where an error becomes a sentence and an exit status."""
    try:
        commands(standalone_mode=False)
    except click.exceptions.Exit as leave:
        sys.exit(leave.exit_code)
    except click.UsageError as error:
        error.show()
        sys.exit(2)
    except click.Abort:
        sys.exit(1)
    except ShuntbookError as error:
        _refuse(error)
        sys.exit(1)


def _refuse(error: ShuntbookError) -> None:
    click.echo(str(error), err=True)
    if isinstance(error, BadSetup):
        click.echo(
            f"{len(error.faults)} faults; nothing was changed. Mend them and load again.",
            err=True,
        )


def _print(fields: Any, as_json: bool, words: str) -> None:
    click.echo(json.dumps(fields, ensure_ascii=False) if as_json else words)


if __name__ == "__main__":
    main()
