"""The `shuntbook` command. Exit status 0 done, 1 refused with a reason, 2 wrong usage."""

import sys
from pathlib import Path
from typing import Any

import click

from shuntbook import __version__, serving
from shuntbook.cli_bundle import bundle_commands
from shuntbook.cli_documents import costs_command, document_command
from shuntbook.cli_options import car_option, data_option, event_option, json_option, show
from shuntbook.cli_plan import plan_command, team_plan_command
from shuntbook.cli_season import observed_command, season_command, spares_command
from shuntbook.cli_statement import statement_command
from shuntbook.config import ca_folder, data_folder
from shuntbook.describing import schema_files
from shuntbook.flow import answers, care, copying, joining
from shuntbook.flow.clock import now
from shuntbook.flow.load import load, rates_files
from shuntbook.flow.refresh import rebuild
from shuntbook.kit.errors import BadSetup, ShuntbookError
from shuntbook.setup.faults import Faults
from shuntbook.setup.rates_files import read_rates
from shuntbook.store.database import Store
from shuntbook.text import backup_text, check_text, queue_text, release_text, restore_text
from shuntbook.tls.page import in_url
from shuntbook.tls.qr import for_terminal
from shuntbook.tls.ready import Ready
from shuntbook.tls.words import told, told_of_invite

port_option = click.option("--port", default=serving.PORT, show_default=True, type=click.IntRange(1, 65535))


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
    show(fields, as_json, words)


@commands.command("queue")
@event_option
@car_option
@data_option
@json_option
def queue_command(event: str, car: str, data: Path | None, as_json: bool) -> None:
    """Print the repair queue of a car."""
    answer = answers.queue(Store(data_folder(data)), event, car)
    show(answer, as_json, queue_text(answer))


@commands.command("release")
@event_option
@car_option
@data_option
@json_option
def release_command(event: str, car: str, data: Path | None, as_json: bool) -> None:
    """Print whether the log holds a car, and why."""
    answer = answers.release(Store(data_folder(data)), event, car)
    show(answer, as_json, release_text(answer))


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
    show(fields, as_json, words)


@commands.command("check")
@data_option
@json_option
def check_command(data: Path | None, as_json: bool) -> None:
    """Check the store: database, entries, photos, what is kept up against a rebuild, gaps in devices' numbers."""
    found = care.look_over(data_folder(data))
    devices = [device._asdict() for device in found.devices]
    show({"problems": found.problems, "notes": found.notes, "devices": devices}, as_json, check_text(found))
    if found.problems:
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
    show({"code": code, "link": link}, as_json, f"{link}\nThe link works once. Open it on {person}'s phone.")


@commands.command("serve")
@click.option("--host", help="Address to listen at (default: 127.0.0.1; with --tls every one of this machine's).")
@port_option
@click.option("--tls", is_flag=True, help="HTTPS by an own CA, and a page on plain http that says how to trust it.")
@click.option("--name", "names", multiple=True, help="Name or address that phones use; the first one is printed.")
@click.option("--ca", type=click.Path(file_okay=False, path_type=Path), help="Folder that the CA is kept in.")
@click.option("--trust-port", type=click.IntRange(1, 65535), help="Port of the page (default: one above --port).")
@click.option("--invite", "invited", multiple=True, metavar="PERSON", help="Print a join link for a person.")
@click.option("--insecure", is_flag=True, help="Allow plain http beyond this machine.")
@click.option("--log-level", default="info", type=click.Choice(["debug", "info", "warning", "error"]))
@data_option
def serve_command(host: str | None, port: int, tls: bool, data: Path | None, **words: Any) -> None:
    """Serve the app and its API."""
    folder = data_folder(data)
    if tls:
        listening = serving.Listening(host or serving.EVERYWHERE, port, words["log_level"])
        secured = serving.Secured(ca_folder(words["ca"]), words["names"], words["trust_port"] or port + 1)
        serving.serve_tls(folder, listening, secured, lambda ready: _announce(ready, folder, words["invited"]))
        return
    listening = serving.Listening(host or serving.HOST, port, words["log_level"])
    if not words["insecure"]:
        serving.refuse_in_the_open(listening.host)
    _announce_invites(f"http://{in_url(listening.host)}:{port}", folder, words["invited"])
    serving.serve(folder, listening)


def _announce(ready: Ready, folder: Path, invited: tuple[str, ...]) -> None:
    click.echo(told(ready, _qr(ready.where.page)))
    _announce_invites(ready.where.app, folder, invited)


def _announce_invites(url: str, folder: Path, invited: tuple[str, ...]) -> None:
    for person in invited:
        link = serving.join_link(url, joining.invite(Store(folder), person, now()))
        click.echo(told_of_invite(person, link, _qr(link)))


def _qr(address: str) -> str:
    return for_terminal(address, sys.stdout.encoding, colours=sys.stdout.isatty())


@commands.command("demo")
@click.option("--host", default=serving.HOST, show_default=True)
@port_option
@data_option
def demo_command(host: str, port: int, data: Path | None) -> None:
    """Load the sample event into a fresh store and serve it, with a link for each kind of person."""
    serving.refuse_in_the_open(host)
    with serving.demo_folder(data) as folder:
        for role, link in serving.demo_links(folder, f"http://{in_url(host)}:{port}"):
            click.echo(f"{role:11}{link}")
        click.echo("Everybody in this demo is invented. Stop it with Ctrl-C.")
        # A line for each request would carry the links off the screen.
        serving.serve(folder, serving.Listening(host, port, level="warning"))


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
    """Copy the store to FILE while the server may go on: with photos to a .zip, else the database alone."""
    click.echo(backup_text(file, copying.backup(Store(data_folder(data)), file)))


@commands.command("restore")
@click.argument("file", type=click.Path(path_type=Path))
@data_option
def restore_command(file: Path, data: Path | None) -> None:
    """Bring a copy back into a new data folder; phones then send all that they hold."""
    folder = data_folder(data)
    click.echo(restore_text(file, folder, copying.restore(file, folder)))


commands.add_command(bundle_commands)
commands.add_command(costs_command)
commands.add_command(document_command)
commands.add_command(plan_command)
commands.add_command(team_plan_command)
commands.add_command(observed_command)
commands.add_command(spares_command)
commands.add_command(season_command)
commands.add_command(statement_command)


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


if __name__ == "__main__":
    main()
