"""Writes docs/api.md from the OpenAPI description: each call with what it takes and answers, by group."""

import sys
from pathlib import Path
from typing import Any

from shuntbook.describing import openapi

METHODS = ("get", "head", "put", "post", "patch", "delete")
HEAD = (Path(__file__).parent / "api_page_head.md").read_text(encoding="utf-8")
COLUMNS = ("| call | what it does | takes | answers |", "|---|---|---|---|")


def page(described: dict[str, Any]) -> str:
    """Return the page in Markdown. described: an OpenAPI 3.1 document."""
    parts = [HEAD]
    for tag in described["tags"]:
        rows = [_row(path, method, call) for path, method, call in _calls(described) if tag["name"] in call["tags"]]
        parts += [
            f"## {tag['description']}\n",
            "| call | what it does | takes | answers |",
            "|---|---|---|---|",
            *rows,
            "",
        ]
    return "\n".join(parts)


def _calls(described: dict[str, Any]) -> list[tuple[str, str, dict[str, Any]]]:
    return [
        (path, method, {**call, "parameters": at.get("parameters", []) + call.get("parameters", [])})
        for path, at in sorted(described["paths"].items())
        for method, call in at.items()
        if method in METHODS
    ]


def _row(path: str, method: str, call: dict[str, Any]) -> str:
    token = "" if call.get("security") else " *no token*"
    says = " ".join(filter(None, (call.get("summary"), call.get("description")))).replace("|", "\\|").replace("\n", " ")
    return f"| `{method.upper()} {path}`{token} | {says} | {_takes(call)} | {_answers(call)} |"


def _takes(call: dict[str, Any]) -> str:
    queries = [f"`?{one['name']}`" for one in call["parameters"] if one.get("in") == "query"]
    return " · ".join([*_shapes(call.get("requestBody", {}).get("content", {})), *queries])


def _answers(call: dict[str, Any]) -> str:
    good = {status: answer for status, answer in call["responses"].items() if status.startswith("2")}
    return ", ".join(" ".join([status, *_shapes(answer.get("content", {}))]) for status, answer in sorted(good.items()))


def _shapes(content: dict[str, Any]) -> list[str]:
    """Return the schema's name where it has one, else the kind of content."""
    names = [media.get("schema", {}).get("$ref", "").rpartition("/")[2] or kind for kind, media in content.items()]
    return [f"`{name}`" for name in dict.fromkeys(names)]


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(page(openapi()), encoding="utf-8")
