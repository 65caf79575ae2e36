"""Makes the documents of an event: reads the log, lets the page be set, hands back bytes with a file name."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from shuntbook.cost.answer import Costs
from shuntbook.cost.table import costs_csv
from shuntbook.document import pdf
from shuntbook.document.car_file import CarFile, Json, Kept
from shuntbook.document.catalogue import document_named, paper_named
from shuntbook.document.cost_statement import cost_statement, newest
from shuntbook.document.declaration import declaration
from shuntbook.document.hand_over import hand_over
from shuntbook.document.job_sheet import job_sheet
from shuntbook.document.parts_order import order_csv, parts_order
from shuntbook.document.record import record
from shuntbook.document.restart import restart_sheet
from shuntbook.document.shots import is_whole
from shuntbook.document.statement import statement, statement_meant
from shuntbook.document.statement_answers import statement_answers
from shuntbook.document.workbook import costs_xlsx
from shuntbook.flow import answers
from shuntbook.flow.lives import lives
from shuntbook.kit.errors import BadPhoto, NotFound
from shuntbook.kit.speech import LANGUAGES
from shuntbook.queue.totals import add_up
from shuntbook.store import kept, log, photos, printed, projections, setups
from shuntbook.store.database import Store
from shuntbook.store.up_to_date import up_to_date

PREVIEW_PPI = 110
"""Pixels an inch of a page that is looked at: A4 is 910 across, which is as wide as a laptop has room for."""

WIDTH = 640
"""Pixels across of a photo on paper: about 270 an inch in three columns. Full pictures would take gigabytes to set."""


@dataclass(frozen=True)
class Asked:
    """Which document of a car: its name, paper, service or number where it has one; `money` shows costs.

    answers: of a statement, what became of each of its lines, which is a paper of its own. language: the event's where
    none is asked for; a statement speaks its customer's, whatever is asked.
    """

    name: str
    paper: str = "a4"
    service: str | None = None
    number: int | None = None
    money: bool = False
    answers: bool = False
    language: str | None = None


@dataclass(frozen=True)
class Made:
    """A finished document and the name that its file should have."""

    data: bytes
    filename: str


def car_document(store: Store, event: str, car: str, asked: Asked) -> Made:
    """Return one document of a car as PDF. Errors: NotFound for a name, paper, event, car, service or number."""
    file = _file_asked(store, event, car, asked)
    if asked.name == "statement":
        return _statement(store, file, asked)
    data = _DATA[asked.name](store, file, asked)
    return Made(pdf.pdf(data, _reader(store), file.newest), f"{event}-{car}-{asked.name}.pdf")


def car_document_pages(store: Store, event: str, car: str, asked: Asked) -> list[bytes]:
    """Return the pages of the same document as pictures (PNG), to look at. Errors: as `car_document`.

    An issued statement is set again from what was issued: the file that was printed first is no picture.
    """
    file = _file_asked(store, event, car, asked)
    return pdf.pages(_DATA[asked.name](store, file, asked), _reader(store), PREVIEW_PPI)


def _file_asked(store: Store, event: str, car: str, asked: Asked) -> CarFile:
    document_named(asked.name)
    paper_named(asked.paper)
    return spoken(car_file(store, event, car), asked.language)


def spoken(file: CarFile, language: str | None) -> CarFile:
    """Return a car's file in a language, the event's where none is asked for. Errors: NotFound for an unknown one."""
    if language and language not in LANGUAGES:
        raise NotFound(f"no paper speaks {language!r}; papers speak {' and '.join(LANGUAGES)}")
    return replace(file, setup=file.setup.spoken(language or file.setup.event.language))


def parts_order_csv(store: Store, event: str, car: str, money: bool) -> Made:
    """Return the parts order of a car as CSV. Errors: NotFound."""
    return Made(order_csv(_order_file(store, car_file(store, event, car)), money), f"{event}-{car}-parts-order.csv")


def costs_pdf(
    store: Store, event: str, car: str | None, rates: str | None, paper: str, language: str | None = None
) -> Made:
    """Return the cost statement of an event, or of one car, as PDF. Errors: NotFound."""
    data, files = _cost_statement(store, event, car, rates, paper, language)
    return Made(pdf.pdf(data, _reader(store), newest(files)), f"{_stem(event, car)}.pdf")


def costs_pages(
    store: Store, event: str, car: str | None, rates: str | None, paper: str, language: str | None = None
) -> list[bytes]:
    """Return the pages of the same statement as pictures (PNG), to look at. Errors: NotFound."""
    data, _ = _cost_statement(store, event, car, rates, paper, language)
    return pdf.pages(data, _reader(store), PREVIEW_PPI)


def costs_workbook(store: Store, event: str, car: str | None, rates: str | None) -> Made:
    """Return the cost sheet of an event, or of one car, as XLSX. Errors: NotFound."""
    costs, files = _costs(store, event, car, rates)
    return Made(costs_xlsx(costs, newest(files)), f"{_stem(event, car)}.xlsx")


def costs_table(store: Store, event: str, car: str | None, rates: str | None) -> Made:
    """Return the lines of the cost sheet as CSV. Errors: NotFound."""
    return Made(costs_csv(answers.costs(store, event, car, rates)), f"{_stem(event, car)}.csv")


def _cost_statement(
    store: Store, event: str, car: str | None, rates: str | None, paper: str, language: str | None
) -> tuple[Json, list[CarFile]]:
    paper_named(paper)
    costs, files = _costs(store, event, car, rates)
    files = [spoken(file, language) for file in files]
    return cost_statement(costs, files[0].setup, files, paper), files


def _costs(store: Store, event: str, car: str | None, rates: str | None) -> tuple[Costs, list[CarFile]]:
    costs = answers.costs(store, event, car, rates)
    with store.read() as db:
        cars = [car] if car else sorted({*setups.get(db, event).event.cars, *log.cars(db, event)})
    return costs, [car_file(store, event, name) for name in cars]


def _stem(event: str, car: str | None) -> str:
    return f"{event}-{car}-costs" if car else f"{event}-costs"


def car_file(store: Store, event: str, car: str) -> CarFile:
    """Return everything that a car's documents are made of. Errors: NotFound."""
    queue = answers.queue(store, event, car)
    with up_to_date(store) as db:
        return CarFile(
            setup=setups.get(db, event),
            car=car,
            entries=tuple(log.of_car(db, event, car)),
            queue=queue,
            kept={name: Kept(*one) for name, one in kept.beside(db, event, car).items()},
            used=add_up(projections.used(db, event)),
            photos=frozenset(photos.all_held(db)),
        )


def _reader(store: Store) -> Callable[[str], bytes | None]:
    def read(digest: str) -> bytes | None:
        try:
            return photos.read_thumbnail(store, digest, WIDTH)
        except (NotFound, BadPhoto):
            return None  # The page says that it is not there; a document of 200 photos does not fail for one.

    return read


def _statement(store: Store, file: CarFile, asked: Asked) -> Made:
    """Return a statement; one that was issued is the file that was printed first, byte for byte."""
    event = file.setup.event.event
    statements = answers.statements(store, event, file.car)
    name = f"{event}-{file.car}-statement"
    if asked.answers:
        data = _statement_data(store, file, asked)
        return Made(pdf.pdf(data, _reader(store), file.newest), f"{name}-answers.pdf")
    entry = statement_meant(file, statements, asked.number).entry
    kept_one = printed.find(store, store.db, entry, asked.paper) if entry else None
    if kept_one is not None:
        return Made(kept_one, f"{name}.pdf")
    data = statement(file, statements, asked.paper, asked.number)
    made = pdf.pdf(data, _reader(store), file.newest)
    if entry and is_whole(data):
        printed.keep(store, entry, asked.paper, made)
        made = printed.find(store, store.db, entry, asked.paper) or made
    return Made(made, f"{name}.pdf")


def _statement_data(store: Store, file: CarFile, asked: Asked) -> Json:
    statements = answers.statements(store, file.setup.event.event, file.car)
    made = statement_answers if asked.answers else statement
    return made(file, statements, asked.paper, asked.number)


def _order_file(store: Store, file: CarFile) -> CarFile:
    """Return a car's file with its parts that have a life, for which other events are read."""
    return replace(file, lives=tuple(lives(store, file.setup.event.event, file.car).lives))


def _record(store: Store, file: CarFile, asked: Asked) -> Json:
    costs = answers.costs(store, file.setup.event.event, file.car) if asked.money else None
    return record(file, asked.paper, costs)


_DATA: dict[str, Callable[[Store, CarFile, Asked], Json]] = {
    "job-sheet": lambda _store, file, asked: job_sheet(file, asked.paper, asked.service),
    "restart-sheet": lambda _store, file, asked: restart_sheet(file, asked.paper),
    "hand-over": lambda _store, file, asked: hand_over(file, asked.paper),
    "declaration": lambda _store, file, asked: declaration(file, asked.paper),
    "record": _record,
    "statement": _statement_data,
    "parts-order": lambda store, file, asked: parts_order(_order_file(store, file), asked.paper, asked.money),
}
"""How the data of each document is made."""
