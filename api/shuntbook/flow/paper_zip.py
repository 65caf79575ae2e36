"""Puts all papers of a car into one zip file, with a list of what is in it and why the rest is not."""

import io
import zipfile
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import partial

from shuntbook.document.catalogue import DOCUMENTS, paper_named
from shuntbook.flow import answers, papers
from shuntbook.flow.papers import Asked, Made
from shuntbook.kit.errors import NotFound
from shuntbook.store.database import Store

CONTENTS = "contents.txt"
BEGUN = (1980, 1, 1, 0, 0, 0)
"""The first time that a zip file can say (PKWARE, APPNOTE 4.4.6): the same papers give the same bytes."""
Making = tuple[str, Callable[[], Made]]


def car_papers(
    store: Store, event: str, car: str, paper: str, names: Iterable[str], money: bool, language: str | None = None
) -> Made:
    """Return the papers of a car that have these names as a zip; `money`: with costs, as a manager has them.

    Each is as `papers` makes it by itself. What the log has nothing for is left out, and the list in the zip says why.
    Errors: NotFound for an event, car or paper.
    """
    paper_named(paper)
    # Refuses an event, a car or a language that is not there.
    papers.spoken(papers.car_file(store, event, car), language)
    out, inside, absent = io.BytesIO(), [], []
    with zipfile.ZipFile(out, "w") as packed:
        for title, make in _all(store, event, car, names, Asked("", paper, money=money, language=language)):
            try:
                made = make()
            except NotFound as error:
                absent.append(f"{title}: {error}")
                continue
            inside.append(f"{made.filename}: {title}")
            _add(packed, made.filename, made.data)
        _add(packed, CONTENTS, _contents(event, car, inside, absent).encode())
    return Made(out.getvalue(), f"{event}-{car}-papers.zip")


def _all(store: Store, event: str, car: str, names: Iterable[str], asked: Asked) -> Iterator[Making]:
    for name in names:
        if name == "statement":
            yield from _statements(store, event, car, asked.paper)
        else:
            yield DOCUMENTS[name].title, partial(papers.car_document, store, event, car, replace(asked, name=name))
        if name == "parts-order":
            yield "Parts order as a table", partial(papers.parts_order_csv, store, event, car, asked.money)
    if asked.money:
        yield "Costs", partial(papers.costs_pdf, store, event, car, None, asked.paper, asked.language)
        yield "Costs as a workbook", partial(papers.costs_workbook, store, event, car, None)


def _statements(store: Store, event: str, car: str, paper: str) -> Iterator[Making]:
    """Yield each issued statement with what became of its lines; the draft where none was issued."""
    asked = Asked("statement", paper, money=True)
    issued = answers.statements(store, event, car).issued
    if not issued:
        yield "Statement, a draft", partial(papers.car_document, store, event, car, asked)
    for one in issued:
        meant = replace(asked, number=one.number)
        yield f"Statement {one.number}", partial(_numbered, store, event, car, meant)
        yield f"Answers to statement {one.number}", partial(_numbered, store, event, car, replace(meant, answers=True))


def _numbered(store: Store, event: str, car: str, asked: Asked) -> Made:
    made = papers.car_document(store, event, car, asked)
    stem, dot, kind = made.filename.rpartition(".")
    return Made(made.data, f"{stem}-{asked.number}{dot}{kind}")


def _add(packed: zipfile.ZipFile, name: str, data: bytes) -> None:
    # Paper is packed already.
    packed.writestr(
        zipfile.ZipInfo(name, BEGUN), data, zipfile.ZIP_STORED if name.endswith(".pdf") else zipfile.ZIP_DEFLATED
    )


def _contents(event: str, car: str, inside: list[str], absent: list[str]) -> str:
    lines = [f"Papers of car {car}, {event}, from the team's own log.", "", "Inside:", *inside]
    if absent:
        lines += ["", "Not inside:", *absent]
    return "\n".join([*lines, "", "Event officials, local rules and licensed practice decide.", ""])
