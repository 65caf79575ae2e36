"""Papers in French: each word that code and templates have in English has one, and none is left over."""

import ast
import csv
import importlib
import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from importlib.resources import files
from pathlib import Path
from string import Formatter
from types import ModuleType

import pytest

from crowded_car import FOOT_PT, crowded_car, is_foot, lines
from every_document import DOCUMENTS, PHOTOS, storied_car
from longer import in_turn, some
from making import Pen
from pdfua_checked import pdfua_finds
from reading_pdf import Pdf
from shuntbook.cost.statements import statements_of_car
from shuntbook.document.car_file import CarFile
from shuntbook.document.catalogue import DOCUMENTS as CATALOGUE
from shuntbook.document.catalogue import PAPERS
from shuntbook.document.pdf import pdf
from shuntbook.document.statement import statement
from shuntbook.kit.speech import NBSP, Speech
from shuntbook.queue.car import car_log
from shuntbook.setup.folder import Setup
from shuntbook.setup.words import CONDITIONS

API = Path(str(files("shuntbook")))
SAYS = {"say", "noted", "speech"}
FRENCH = Speech("fr")
IN_TEMPLATES = re.compile(r'"((?:[^"\\]|\\.)*)"')


@pytest.fixture
def file(pen: Pen, setup: Setup) -> CarFile:
    return storied_car(pen, setup)


@pytest.fixture(scope="module")
def crowded() -> CarFile:
    return crowded_car()


def modules() -> list[str]:
    return [f"shuntbook.{folder}.{path.stem}" for folder in ("cost", "document", "lives") for path in source(folder)]


def source(folder: str) -> list[Path]:
    return sorted(path for path in (API / folder).glob("*.py") if path.stem != "__init__")


def texts(value: object) -> Iterator[str]:
    """The texts in a constant: itself, or what a dict, tuple or list holds."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for one in value.values():
            yield from texts(one)
    elif isinstance(value, tuple | list):
        for one in value:
            yield from texts(one)


class Said(ast.NodeVisitor):
    """The English texts that a module asks the words of: literals, module constants, and local names that hold them."""

    def __init__(self, module: ModuleType) -> None:
        self.module = module
        self.found: set[str] = set()
        self.functions: list[ast.FunctionDef] = []

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        self.functions.append(node)
        self.generic_visit(node)
        self.functions.pop()

    def visit_Call(self, node: ast.Call) -> None:
        name = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
        if name in SAYS and node.args:
            self.found |= set(self.of(node.args[0], frozenset()))
        self.generic_visit(node)

    def of(self, node: ast.AST, seen: frozenset[str]) -> Iterator[str]:
        if isinstance(node, ast.Constant):
            yield from texts(node.value)
        elif isinstance(node, ast.Name) and node.id not in seen:
            yield from texts(getattr(self.module, node.id, None))
            for function in self.functions:
                for inner in ast.walk(function):
                    if isinstance(inner, ast.Assign) and any(self.is_named(one, node.id) for one in inner.targets):
                        yield from self.of(inner.value, seen | {node.id})
        elif isinstance(node, ast.IfExp):
            yield from self.of(node.body, seen)
            yield from self.of(node.orelse, seen)
        elif isinstance(node, ast.BoolOp):
            for one in node.values:
                yield from self.of(one, seen)
        elif isinstance(node, ast.Subscript):
            yield from self.of(node.value, seen)
        elif isinstance(node, ast.Dict):
            for one in node.values:
                yield from self.of(one, seen)
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "get":
            yield from self.of(node.func.value, seen)
            for one in node.args[1:]:
                yield from self.of(one, seen)

    @staticmethod
    def is_named(target: ast.AST, name: str) -> bool:
        return isinstance(target, ast.Name) and target.id == name


def said_in(name: str) -> set[str]:
    module = importlib.import_module(name)
    visitor = Said(module)
    visitor.visit(ast.parse(Path(str(module.__file__)).read_text("utf8")))
    return {text for text in visitor.found if re.search("[A-Za-z]{2}", re.sub(r"\{\w+\}", "", text))}


def said_in_template(text: str) -> set[str]:
    """The texts in a call of t, and in lists that are mapped by it."""
    calls = re.findall(r'\bt\((?:if [^{]*\{\s*)?"((?:[^"\\]|\\.)*)"(?:\s*\}\s*else\s*\{\s*"((?:[^"\\]|\\.)*)")?', text)
    lists = re.findall(r"\(((?:\"[^\"]*\",?\s*)+)\)\.map\(t\)", text)
    labels = re.findall(r'line-of\("([^"]*)"', text)
    found = {one for call in calls for one in call if one} | set(labels)
    found |= {one for some in lists for one in IN_TEMPLATES.findall(some)}
    return {re.sub(r"\\(.)", r"\1", one) for one in found}


def every_text() -> dict[str, str]:
    """English text → where it is said."""
    found = {text: name for name in modules() for text in said_in(name)}
    for path in sorted((API / "document/templates").glob("*.typ")):
        found |= dict.fromkeys(said_in_template(path.read_text("utf8")), path.name)
    return found


def fields(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name}


def test_each_text_of_code_and_templates_has_a_french_one_with_the_same_fields() -> None:
    lacking = {text: where for text, where in every_text().items() if text not in FRENCH.page_words}
    assert lacking == {}
    assert {text for text, said in FRENCH.page_words.items() if fields(text) != fields(said)} == set()


def test_titles_sums_and_the_entries_closed_words_have_a_french_one() -> None:
    by_name = {"document.cost_statement": ("BY", "SUMS"), "document.statement": ("TOTALS",)}
    named = [one.title for one in CATALOGUE.values()]
    for name, constants in by_name.items():
        module = importlib.import_module(f"shuntbook.{name}")
        named += [text for constant in constants for text in texts(getattr(module, constant))]
    actions = [name for path in (API / "defaults/rates").glob("*.csv") for name in column(path, "action")]
    steps = [name.replace("made-safe", "made-ready") for name in column(API / "defaults/rates/access.csv", "step")]
    views = (one.replace("-", " ") for one in [*actions, *steps])
    assert [text for text in [*named, *CONDITIONS, *views] if text not in FRENCH.page_words] == []


def column(path: Path, name: str) -> list[str]:
    with path.open(encoding="utf8", newline="") as table:
        return [row[name] for row in csv.DictReader(table) if row.get(name)]


def test_labels_and_checks_are_those_of_the_app() -> None:
    app = API.parents[1] / "pwa/src/view/words/fr"
    pair = re.compile(r'^\s*(?:"((?:[^"\\]|\\.)*)"|(\w+)):\s*"((?:[^"\\]|\\.)*)",', re.MULTILINE)
    source = (app / "car_map.ts").read_text("utf8") + (app / "looks.ts").read_text("utf8").split("const CHECKS")[1]
    theirs = {quoted or bare: said.replace(NBSP, " ") for quoted, bare, said in pair.findall(source)}
    ours = tomllib.loads((API / "kit/fr.toml").read_text("utf8"))["car_map"]
    assert ours == {english: theirs.get(english) for english in ours}
    labels = [
        row["label"] for row in tomllib.loads((API / "defaults/car_map.toml").read_text("utf8"))["zones"].values()
    ]
    assert [label for label in labels if label not in ours] == []


@pytest.mark.parametrize(("name", "paper"), in_turn(DOCUMENTS, PAPERS))
def test_each_paper_in_french_is_whole_and_says_so(name: str, paper: str, file: CarFile) -> None:
    french = replace(file, setup=file.setup.spoken("fr"))
    made = pdf(DOCUMENTS[name](french, paper), PHOTOS.get, file.newest)
    read = Pdf(made)
    assert read.root["/Lang"] == "fr"
    assert pdfua_finds(made) == []
    english = Pdf(pdf(DOCUMENTS[name](file, paper), PHOTOS.get, file.newest))
    assert read.pages == english.pages
    assert "Les officiels de l'épreuve, le règlement local et la pratique autorisée décident." in read.text.replace(
        "’", "'"
    )
    assert left_english(read.text) == set()


def left_english(words: str) -> set[str]:
    """The English texts of two words and more, without fields, that stand on a French page."""
    return {text for text in every_text() if " " in text.strip() and "{" not in text and text in words}


def test_french_never_breaks_a_line_before_a_colon(file: CarFile) -> None:
    """French sets a space before : ; ? ! and inside « » that must not break (Imprimerie nationale, from memory)."""
    french = replace(file, setup=file.setup.spoken("fr"))
    for name, make in DOCUMENTS.items():
        for text in texts_in(make(french, "a4")):
            assert not re.search(r" [:;?!»]|« ", text), (name, text)


def texts_in(value: object) -> Iterator[str]:
    """All texts of a paper's data but its words by English ones."""
    if isinstance(value, dict):
        for key, one in value.items():
            if key != "words":
                yield from texts_in(one)
    elif isinstance(value, list | tuple):
        for one in value:
            yield from texts_in(one)
    elif isinstance(value, str):
        yield value


@pytest.mark.parametrize("paper", some(list(PAPERS), 2))
def test_a_statement_speaks_its_customers_language_to_the_same_cents(crowded: CarFile, paper: str) -> None:
    agreements = tuple(replace(one, language="fr") for one in crowded.setup.event.agreements)
    setup = replace(crowded.setup, event=replace(crowded.setup.event, agreements=agreements))
    log = car_log(crowded.entries, setup)
    english, french = (statements_of_car("42", log, one) for one in (crowded.setup, setup))
    assert english.draft is not None
    assert french.draft is not None
    assert french.draft.totals == english.draft.totals
    assert french.draft.letter is not None
    assert french.draft.letter.language == "fr"
    made = pdf(statement(replace(crowded, setup=setup), french, paper), lambda _: None, crowded.newest)
    read = Pdf(made)
    assert pdfua_finds(made) == []
    assert read.root["/Lang"] == "fr"
    assert "Sous votre franchise de 1 500,00 par incident, donc à payer en entier" in read.text
    [agreement] = [one for one in agreements if one.car == "42"]
    assert left_english(read.text.replace(agreement.text, "")) == set(), "what the team wrote stays as it is"
    for page in range(read.pages):
        assert [text for height, text in lines(read, page) if height < FOOT_PT and not is_french_foot(text)] == []


def is_french_foot(text: str) -> bool:
    return is_foot(text) or any(said in text for said in ("Calcul", "Établi", "Heures", "Décompte", "juin"))


@pytest.mark.parametrize(
    ("english", "french"),
    [("1234567.50", "1 234 567,50"), ("-12.5", "−12,5"), ("0.00", "0,00"), ("1000", "1 000")],
)
def test_amounts_are_written_as_the_language_writes_them(english: str, french: str) -> None:
    assert FRENCH.amount(english).replace(NBSP, " ") == french


def test_days_are_written_as_people_read_them() -> None:
    days = [date(2026, 6, 1), date(2026, 2, 28), date(2026, 8, 13)]
    assert [Speech().day(one) for one in days] == ["1 Jun 2026", "28 Feb 2026", "13 Aug 2026"]
    assert [FRENCH.day(one) for one in days] == ["1er juin 2026", "28 févr. 2026", "13 août 2026"]
