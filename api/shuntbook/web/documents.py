"""Routes for documents: PDF, XLSX and CSV files to read, print and sign, and their pages as pictures."""

from collections.abc import Callable
from typing import Any

import msgspec
from flask import Response, request
from flask.views import MethodView

from shuntbook.document.catalogue import DOCUMENTS, PAPERS, document_named
from shuntbook.flow import papers
from shuntbook.flow.members import Member, demand_car, demand_sight
from shuntbook.flow.paper_zip import car_papers
from shuntbook.flow.papers import Asked, Made
from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import NotAllowed, NotFound
from shuntbook.kit.speech import LANGUAGES
from shuntbook.store import setups
from shuntbook.web.api import SECURED, answers_problem, blueprint, in_query, is_held, not_modified, tagged
from shuntbook.web.auth import joined, seeing, the_store
from shuntbook.web.remembered import papers_now, the_memory
from shuntbook.wire.sight import COSTS_IN_PAPERS, Sight
from shuntbook.wire.sight import PAPERS as PAPERS_SEEN

routes = blueprint("documents", "Files to read, print and sign")

PDF = "application/pdf"
PNG = "image/png"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
CSV = "text/csv; charset=utf-8"
ZIP = "application/zip"


def _query(name: str, description: str, **schema: Any) -> dict[str, Any]:
    return {"in": "query", "name": name, "schema": {"type": "string", **schema}, "description": description}


PAPER = _query("paper", "A4 where none is named", enum=list(PAPERS))
LANGUAGE = _query("language", "what the paper speaks; the event's language where none is named", enum=list(LANGUAGES))
ONE_CAR = _query("car", "only this car")
PAGE = _query("page", "which page, from 1", type="integer")
OF_A_DOCUMENT = [
    PAPER,
    LANGUAGE,
    _query("service", "the service that a job sheet is for"),
    _query("part", "of an issued statement, `answers`: what became of each line", enum=["answers"]),
    _query("number", "the number of an issued statement; the newest where none is named", type="integer"),
]
RATES = _query("rates", "an older rate table's version")


def _file(kind: str, description: str) -> dict[str, Any]:
    content = {kind.split(";")[0]: {"schema": {"type": "string", "format": "binary"}}}
    return {"responses": {"200": {"description": description, "content": content}}}


def _page_of(what: str) -> dict[str, Any]:
    described = _file(PNG, f"a page of {what}; `Page-Count` says how many there are")
    described["responses"]["200"]["headers"] = {"Page-Count": {"schema": {"type": "integer"}}}
    return described


@routes.route("/events/<string:event>/costs.pdf")
class CostsPdf(MethodView):
    """Cost statement."""

    @routes.doc(**SECURED, **_file(PDF, "PDF/UA-1"), parameters=[ONE_CAR, RATES, PAPER, LANGUAGE])
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str) -> Response:
        """Return the cost statement of an event, or of one car, to print."""
        seeing("costs", "The cost statement", event)
        paper, language = in_query("paper") or "a4", in_query("language")
        return _answer(papers.costs_pdf(the_store(), event, in_query("car"), in_query("rates"), paper, language), PDF)


@routes.route("/events/<string:event>/costs.png")
class CostsPage(MethodView):
    """A page of the cost statement."""

    @routes.doc(**SECURED, **_page_of("the cost statement"), parameters=[PAGE, ONE_CAR, RATES, PAPER, LANGUAGE])
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str) -> Response:
        """Return a page of the cost statement as a picture, to look at before it is printed."""
        seeing("costs", "The cost statement", event)
        asked = (event, in_query("car"), in_query("rates"), in_query("paper") or "a4", in_query("language"))
        return _page(asked, lambda: papers.costs_pages(the_store(), *asked))


@routes.route("/events/<string:event>/costs.xlsx")
class CostsXlsx(MethodView):
    """Costs as a workbook."""

    @routes.doc(**SECURED, **_file(XLSX, "XLSX (ISO/IEC 29500)"), parameters=[ONE_CAR, RATES])
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str) -> Response:
        """Return the cost sheet as a workbook: lines, sums, adjustments."""
        seeing("costs", "The cost sheet", event)
        return _answer(papers.costs_workbook(the_store(), event, in_query("car"), in_query("rates")), XLSX)


@routes.route("/events/<string:event>/cars/<string:car>/documents/<string:name>.pdf")
class Document(MethodView):
    """A document of one car."""

    @routes.doc(
        **SECURED,
        **_file(PDF, f"PDF/UA-1; the documents are {', '.join(DOCUMENTS)}"),
        parameters=OF_A_DOCUMENT,
    )
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str, car: str, name: str) -> Response:
        """Return a document of a car to print."""
        return _answer(papers.car_document(the_store(), event, car, _asked(event, car, name)), PDF)


@routes.route("/events/<string:event>/cars/<string:car>/documents/<string:name>.png")
class DocumentPage(MethodView):
    """A page of a document of one car."""

    @routes.doc(**SECURED, **_page_of("the same document"), parameters=[PAGE, *OF_A_DOCUMENT])
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str, car: str, name: str) -> Response:
        """Return a page of a document of a car as a picture, to look at before it is printed."""
        asked = _asked(event, car, name)
        return _page((event, car, asked), lambda: papers.car_document_pages(the_store(), event, car, asked))


@routes.route("/events/<string:event>/cars/<string:car>/documents/parts-order.csv")
class PartsOrderCsv(MethodView):
    """Parts order as a table."""

    @routes.doc(**SECURED, **_file(CSV, "CSV (RFC 4180)"))
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str, car: str) -> Response:
        """Return the parts order of a car as CSV; with costs for a manager."""
        _, who = joined()
        _may_have(who, event, car, "parts-order")
        money = who.sees_at(event).may(COSTS_IN_PAPERS)
        return _answer(papers.parts_order_csv(the_store(), event, car, money), CSV)


@routes.route("/events/<string:event>/cars/<string:car>/documents.zip")
class Papers(MethodView):
    """All papers of one car."""

    @routes.doc(
        **SECURED, **_file(ZIP, "each paper as it is made by itself, and contents.txt"), parameters=[PAPER, LANGUAGE]
    )
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str, car: str) -> Response:
        """Return all papers of a car that the caller may have, in one file to send or to keep."""
        _, who = joined()
        demand_car(who, event, car)
        money = who.sees_at(event).may(COSTS_IN_PAPERS)
        names = [name for name in DOCUMENTS if _has(who, event, car, name)]
        paper, language = in_query("paper") or "a4", in_query("language")
        return _answer(car_papers(the_store(), event, car, paper, names, money, language), ZIP)


def _asked(event: str, car: str, name: str) -> Asked:
    """Return which document the query asks for. Errors: NotFound, NotAllowed where it is not for the caller."""
    _, who = joined()
    _may_have(who, event, car, name)
    money = who.sees_at(event).may(COSTS_IN_PAPERS)
    answers = name == "statement" and in_query("part") == "answers"
    return Asked(name, in_query("paper") or "a4", in_query("service"), _number(), money, answers, in_query("language"))


def _has(who: Member, event: str, car: str, name: str) -> bool:
    try:
        _may_have(who, event, car, name)
    except NotAllowed:
        return False
    return True


def _may_have(who: Member, event: str, car: str, name: str) -> None:
    """Refuse a document that is not for the caller. Errors: NotFound, NotAllowed."""
    document, paper, sees = document_named(name), PAPERS_SEEN[name], who.sees_at(event)
    demand_car(who, event, car)
    if sees.may(paper.always) or (sees.may(paper.with_advice) and _advice_on_road(event)):
        return
    if paper.always is Sight.WORK:
        roles = who.roles_at(event)
        raise NotAllowed(
            f"the {document.title.lower()} is service's; {who.name} is {', '.join(roles) or 'without a role'}, and"
            " this event allows no advice on the road. Ask a mechanic to print it"
        )
    demand_sight(who, paper.always, f"The {document.title.lower()}", event)


def _advice_on_road(event: str) -> bool:
    with the_store().read() as db:
        return setups.get(db, event).event.regulations.advice_on_road


def _page(asked: tuple[object, ...], made: Callable[[], list[bytes]]) -> Response:
    """Answer with the page that the query names; all pages are made at once, and turned without being made again."""
    key = (asked, papers_now())
    number = in_query("page") or "1"
    etag = sha256(repr((key, number)).encode())
    previews = the_memory().previews
    if is_held(etag) and not request.if_none_match.star_tag:
        return not_modified(etag, kept=False)
    held = previews.get(key)
    pages = msgspec.msgpack.decode(held, type=list[bytes]) if held is not None else made()
    if held is None:
        previews.put(key, msgspec.msgpack.encode(pages))
    if not (number.isascii() and number.isdecimal() and len(number) < 6 and 1 <= int(number) <= len(pages)):
        raise NotFound(f"there is no page {number!r}; the document has {len(pages)}, from 1")
    response = Response(pages[int(number) - 1], content_type=PNG, headers={"Page-Count": str(len(pages))})
    return tagged(response, etag, kept=False)


def _number() -> int | None:
    said = in_query("number")
    if said is not None and not (said.isascii() and said.isdecimal() and len(said) < 6):
        raise NotFound(f"there is no statement {said!r}; statements are numbered 1, 2, 3 …")
    return None if said is None else int(said)


def _answer(made: Made, kind: str) -> Response:
    headers = {
        "Content-Disposition": f'attachment; filename="{_ascii(made.filename)}"',
        # Money and names stay out of shared caches.
        "Cache-Control": "private, no-store",
    }
    return Response(made.data, content_type=kind, headers=headers)


def _ascii(name: str) -> str:
    return "".join(c if c.isascii() and (c.isalnum() or c in "-._") else "_" for c in name)
