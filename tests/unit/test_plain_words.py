"""One plain word for each act, in what the server says and in the documentation; the app has a test like it."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
API = ROOT / "api/shuntbook"
DOCS = sorted((ROOT / "docs").glob("*.md")) + [
    ROOT / name for name in ("README.md", "DEVELOPERS.md", "CONTRIBUTING.md")
]
NOT = {
    r"\bset aside\b": "needs review",
    r"\bshut[- ](?:out|outs)\b": "blocked",
    r"\b(?:reckon\w*|works? out|worked out)\b": "calculate",
    r"\b(?:anew|begin again)\b": "again, start over",
    r"\bmend(?:s|ed|ing)?\b": "fix",
    r"\b(?:he|his|him|himself)\b": "they, the customer, the inspector",
    r"\b(?:till|whilst|tent pole|let go from)\b": "until, while, job sheet, left",
    r"\bunseen by each other\b": "two people edited this at the same time",
    r"\b(?:put down by|released unseen)\b": "recorded by, not checked before the car left",
    r"\bcomes back to you\b": "refund",
    r"\byou pay all of it\b": "payable in full",
    r"\b(?:look at it|found wanting)\b": "inspect, failed",
}
"""What is not said → what is said instead; letters in any case."""
EVERYDAY = ("they can look at it", "keep other work out of the cabin")
"""Where a word is meant as everyday English has it."""


def sentences(path: Path) -> Iterator[str]:
    """The texts of two words and more in a module that are no docstrings."""
    tree = ast.parse(path.read_text("utf8"))
    docs = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
            yield from [node.value] if " " in node.value else []


def faults(text: str) -> list[str]:
    """What a text says that is said otherwise; names in backticks are names."""
    plain = re.sub(r"`[^`]*`", "", text)
    for known in EVERYDAY:
        plain = plain.replace(known, "")
    return [f"{found[0]} → {use}" for of, use in NOT.items() for found in re.finditer(of, plain, re.IGNORECASE)]


@pytest.mark.parametrize("folder", sorted({path.parent for path in API.rglob("*.py")}), ids=lambda one: one.name)
def test_what_the_server_and_its_commands_say(folder: Path) -> None:
    told = {path.name: [one for text in sentences(path) for one in faults(text)] for path in folder.glob("*.py")}
    assert {name: found for name, found in told.items() if found} == {}


@pytest.mark.parametrize("page", DOCS, ids=lambda one: one.name)
def test_the_documentation(page: Path) -> None:
    # What stands in fenced blocks is typed, not read.
    prose = re.sub(r"```.*?```", "", page.read_text("utf8"), flags=re.DOTALL)
    assert faults(prose) == []


def test_what_is_not_said_is_found() -> None:
    assert faults("It was set aside, and he looked; see `set-aside`.") == [
        "set aside → needs review",
        f"he → {NOT[HE]}",
    ]


HE = r"\b(?:he|his|him|himself)\b"
