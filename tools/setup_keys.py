"""Writes what is made from the set-up's table of keys: the app's description of its forms, and the page for people.

    python tools/setup_keys.py

`pwa/src/setup/tables.ts` is written whole; of `docs/set-up.md` all below its mark.
"""

import json
from pathlib import Path
from typing import Any

from shuntbook.setup.keys import Key, Table
from shuntbook.setup.tables import TABLES
from shuntbook.setup.values import said, usual

ROOT = Path(__file__).resolve().parents[1]
SPECS = ROOT / "pwa" / "src" / "setup" / "tables.ts"
PAGE = ROOT / "docs" / "set-up.md"
MARK = "<!-- What is below is made by tools/setup_keys.py from the server's table of keys. -->\n"
HEAD = """/** Made by tools/setup_keys.py from the server's table of keys (api/shuntbook/setup); not edited by hand. */

import type { Spec } from "./specs";

export const TABLES: readonly Spec[] = [
"""
FORM_KINDS = {"whole": "number", "money": "number", "points": "numbers"}
"""What the app's forms call kinds that are one to them."""
KINDS = {
    "text": "text",
    "number": "number",
    "whole": "whole number",
    "money": "money",
    "flag": "true or false",
    "list": "names",
    "points": "best, likely, worst",
    "quantities": "how many of each",
    "day": "day",
    "time": "time with its offset",
}
SHAPES = {
    "csv": "a row each in {file}",
    "top": "at the top of {file}",
    "one": "[{table}] in {file}",
    "rows": "[[{table}]] in {file}",
    "named": "[{table}.NAME] in {file}, where NAME is the first key",
    "values": "[{table}] in {file}, a line each: the first key = the second",
}


def main() -> None:
    """Write both files."""
    SPECS.write_text(typescript(TABLES))
    PAGE.write_text(page(PAGE.read_text(), TABLES))


def typescript(tables: tuple[Table, ...]) -> str:
    """Return the app's module: a line for each key."""
    return HEAD + "".join(_spec(table) for table in tables) + "];\n"


def page(text: str, tables: tuple[Table, ...]) -> str:
    """Return a page with everything below its mark made from these tables."""
    return text.partition(MARK)[0] + MARK + "".join(_section(table) for table in tables)


def _spec(table: Table) -> str:
    columns = "".join(f"      {_json(_column(key, table))},\n" for key in table.columns)
    fields = {"table": table.table, "file": table.file, "shape": table.shape, "keys": list(table.keys)}
    head = "".join(f"    {name}: {_json(value)},\n" for name, value in fields.items())
    return f"  {{\n{head}    columns: [\n{columns}    ],\n  }},\n"


def _column(key: Key, table: Table) -> dict[str, Any]:
    said_of = {
        "column": key.key,
        "kind": FORM_KINDS.get(key.kind, key.kind),
        "among": [one for one in key.among if one],
        "from": key.refers.split(".") if key.refers else None,
        "long": key.long,
        "unit": "" if key.kind == "points" else key.unit,
        "first": key.first,
        "idle": not key.used,
        "needed": key.required and table.shape == "csv",
    }
    return {name: value for name, value in said_of.items() if value}


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False)


def _section(table: Table) -> str:
    where = SHAPES[table.shape].format(table=table.table, file=table.file)
    head = "| key | holds | bounds | else | told to | |\n|---|---|---|---|---|---|\n"
    return (
        f"\n### {table.table}\n\n{where[0].upper()}{where[1:]}.\n\n{head}{''.join(_line(key) for key in table.columns)}"
    )


def _line(key: Key) -> str:
    told = "everybody" if key.seen == "all" else "managers"
    what = key.help if key.used else f"{key.help} *Kept and shown; nothing follows from it in this version.*"
    return f"| `{key.key}` | {_holds(key)} | {_bounds(key)} | {_else(key)} | {told} | {what} |\n"


def _holds(key: Key) -> str:
    if key.among and key.kind in ("text", "list"):
        return " · ".join(f"`{one}`" for one in key.among if one)
    return KINDS[key.kind] + (f", {key.unit}" if key.unit else "")


def _bounds(key: Key) -> str:
    if key.kind in ("text", "flag", "list", "day", "time"):
        return "no slash" if key.plain else ""
    least = f"above {key.above}" if key.above is not None else f"{key.least}"
    return f"{least} to {key.most}"


def _else(key: Key) -> str:
    if key.same:
        return f"as `{key.same}`"
    if key.required and usual(key) in (None, ()):
        return "has to be there" if usual(key) is None else "may be empty"
    return said(usual(key)) or "nothing"


if __name__ == "__main__":
    main()
