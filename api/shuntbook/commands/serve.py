"""The commands that serve: a team's own data, and the demo."""

import sys
from contextlib import closing
from pathlib import Path
from typing import Any

import click

from shuntbook import serving
from shuntbook.commands.options import data_option
from shuntbook.config import HOST, PORT, ca_folder, data_folder
from shuntbook.flow import joining, rebuilding
from shuntbook.flow.clock import now
from shuntbook.store.database import Store
from shuntbook.tls.page import in_url
from shuntbook.tls.qr import for_terminal
from shuntbook.tls.ready import Ready
from shuntbook.tls.words import told, told_of_invite
from shuntbook.web.limits import Limits

port_option = click.option("--port", default=PORT, show_default=True, type=click.IntRange(1, 65535))


@click.command("serve")
@click.option("--host", help="Address to listen at (default: 127.0.0.1; with --tls every one of this machine's).")
@port_option
@click.option("--tls", is_flag=True, help="HTTPS by an own CA, and a page on plain http that says how to trust it.")
@click.option("--name", "names", multiple=True, help="Name or address that phones use; the first one is printed.")
@click.option("--ca", type=click.Path(file_okay=False, path_type=Path), help="Folder that the CA is kept in.")
@click.option("--trust-port", type=click.IntRange(1, 65535), help="Port of the page (default: one above --port).")
@click.option("--invite", "invited", multiple=True, metavar="PERSON", help="Print a join link for a person.")
@click.option("--owner", "owners", multiple=True, metavar="PERSON", help="Name who lets new people and devices in.")
@click.option(
    "--rebuild", is_flag=True, help="Let managers' phones bring back what this log lost, until an owner ends it."
)
@click.option("--insecure", is_flag=True, help="Allow plain http beyond this machine.")
@click.option("--log-level", default="info", type=click.Choice(["debug", "info", "warning", "error"]))
@click.option(
    "--body-pause", default=Limits.pause_s, show_default=True, type=click.FloatRange(0.1, 600), metavar="SECONDS",
    help="How long an upload may stop coming before the call is refused.",
)  # fmt: skip
@data_option
def serve_command(host: str | None, port: int, tls: bool, data: Path | None, **words: Any) -> None:
    """Serve the app and its API."""
    folder, ca = data_folder(data), ca_folder(words["ca"])
    if not (tls or words["insecure"]):
        serving.refuse_in_the_open(host or HOST)
    _prepare(folder, words["owners"], words["rebuild"])
    for line in serving.close_to_others(folder, *([ca] if tls else [])):
        click.echo(line)
    if tls:
        listening = serving.Listening(host or serving.EVERYWHERE, port, words["log_level"], pause_s=words["body_pause"])
        secured = serving.Secured(ca, words["names"], words["trust_port"] or port + 1)
        serving.serve_tls(folder, listening, secured, lambda ready: _announce(ready, folder, words["invited"]))
        return
    listening = serving.Listening(host or HOST, port, words["log_level"], pause_s=words["body_pause"])
    url = f"http://{in_url(listening.host)}:{port}"
    serving.serve(folder, listening, lambda: _announce_plain(url, folder, words["invited"]))


def _prepare(folder: Path, owners: tuple[str, ...], rebuild: bool) -> None:
    if not (owners or rebuild):
        return
    with closing(Store(folder)) as store:
        for person in owners:
            joining.name_owner(store, person, now())
            click.echo(f"{person} owns this log: lets new people and devices in, ends a rebuild.")
        if rebuild:
            rebuilding.begin(store)
            click.echo("A rebuild is under way until an owner ends it; everybody sees it, and what is done in it.")


def _announce(ready: Ready, folder: Path, invited: tuple[str, ...]) -> None:
    click.echo(told(ready, _qr(ready.where.page)))
    _announce_invites(ready.where.app, folder, invited, step="3. ")


def _announce_plain(url: str, folder: Path, invited: tuple[str, ...]) -> None:
    click.echo(f"The app is at {url}. Stop it with Ctrl-C.")
    _announce_invites(url, folder, invited)


def _announce_invites(url: str, folder: Path, invited: tuple[str, ...], step: str = "") -> None:
    if not invited:
        return
    with closing(Store(folder)) as store:
        links = [(person, joining.join_link(url, joining.invite(store, person, now()))) for person in invited]
    for person, link in links:
        click.echo(told_of_invite(person, link, _qr(link), step))


def _qr(address: str) -> str:
    return for_terminal(address, sys.stdout.encoding, colours=sys.stdout.isatty())


@click.command("demo")
@click.option("--host", default=HOST, show_default=True)
@port_option
@click.option(
    "--data", type=click.Path(file_okay=False, path_type=Path),
    help="New folder for the demo's data (default: a temporary one, gone when the demo stops).",
)  # fmt: skip
def demo_command(host: str, port: int, data: Path | None) -> None:
    """Load the sample event into a fresh store and serve it, with a link for each kind of person."""
    serving.refuse_in_the_open(host)
    with serving.demo_folder(data) as folder:
        # A line for each request would carry the links off the screen.
        listening = serving.Listening(host, port, level="warning")
        serving.serve(folder, listening, lambda: _announce_demo(folder, f"http://{in_url(host)}:{port}"))


def _announce_demo(folder: Path, url: str) -> None:
    for role, link in serving.demo_links(folder, url):
        click.echo(f"{role:11}{link}")
    click.echo("Everybody in this demo is invented. Stop it with Ctrl-C.")
