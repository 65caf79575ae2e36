"""The commands that write documents to files: a car's, and an event's costs."""

from collections.abc import Callable
from pathlib import Path

import click

from shuntbook.commands.options import car_option, data_option, event_option, held_store, json_option, show
from shuntbook.commands.text import costs_text
from shuntbook.document.catalogue import DOCUMENTS, PAPERS
from shuntbook.flow import answers, papers
from shuntbook.flow.papers import Asked, Made
from shuntbook.kit.errors import NotPossible
from shuntbook.kit.speech import LANGUAGES

paper_option = click.option("--paper", type=click.Choice(list(PAPERS)), default="a4", show_default=True)
language_option = click.option(
    "--language",
    type=click.Choice(LANGUAGES),
    help="What the paper speaks (default: the event's; a statement its customer's).",
)
PARTS_ORDER = "parts-order"


@click.command("document")
@click.argument("name", type=click.Choice(list(DOCUMENTS)))
@event_option
@car_option
@click.option("--service", help="The service that a job sheet is for.")
@click.option("--number", type=click.IntRange(1), help="The number of an issued statement (default: the newest).")
@click.option("--answers", is_flag=True, help="Of an issued statement: what became of each of its lines.")
@paper_option
@language_option
@click.option("--out", required=True, type=click.Path(path_type=Path), help="File to write; a parts order may be .csv.")
@data_option
def document_command(
    name: str,
    event: str,
    car: str,
    service: str | None,
    number: int | None,
    answers: bool,
    paper: str,
    language: str | None,
    out: Path,
    data: Path | None,
) -> None:
    """Write a document of a car to a file: job sheet, restart sheet, hand-over, record and others."""
    store = held_store(data)
    if out.suffix == ".csv" and name == PARTS_ORDER:
        _write(out, papers.parts_order_csv(store, event, car, money=True))
    elif out.suffix == ".pdf":
        asked = Asked(name, paper, service, number, money=True, answers=answers, language=language)
        _write(out, papers.car_document(store, event, car, asked))
    else:
        raise click.BadParameter(f"{out}: name a .pdf file, or a .csv for a parts order", param_hint="--out")


@click.command("costs")
@event_option
@click.option("--car", help="Only this car.")
@click.option("--rates", help="Calculate with this rate-table version, one that the event once had.")
@click.option("--out", type=click.Path(path_type=Path), help="Write to this .csv, .xlsx or .pdf file instead.")
@paper_option
@language_option
@data_option
@json_option
def costs_command(
    event: str,
    car: str | None,
    rates: str | None,
    out: Path | None,
    paper: str,
    language: str | None,
    data: Path | None,
    as_json: bool,
) -> None:
    """Print what an event cost, estimate and actual; or write it to a file."""
    store = held_store(data)
    if out is None:
        answer = answers.costs(store, event, car, rates)
        show(answer, as_json, costs_text(answer))
        return
    makers: dict[str, Callable[[], Made]] = {
        ".csv": lambda: papers.costs_table(store, event, car, rates),
        ".xlsx": lambda: papers.costs_workbook(store, event, car, rates),
        ".pdf": lambda: papers.costs_pdf(store, event, car, rates, paper, language),
    }
    if out.suffix not in makers:
        raise click.BadParameter(f"{out}: name a file that ends in {', '.join(makers)}", param_hint="--out")
    _write(out, makers[out.suffix]())


def _write(out: Path, made: Made) -> None:
    try:
        out.write_bytes(made.data)
    except OSError as error:
        raise NotPossible(f"{out} could not be written: {error.strerror}. Name another place") from error
    click.echo(f"{out}: {len(made.data)} bytes.")
