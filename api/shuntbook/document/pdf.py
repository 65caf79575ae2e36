"""Runs Typst: a template, data and pictures in, a tagged PDF (PDF/UA-1, ISO 14289-1) with embedded fonts out.

Data with text under `attached` makes a PDF/A-3a (ISO 19005-3), too, with that text in it as a file.

Data goes in as JSON text that the template decodes, so nothing that people wrote is ever run as markup or code. Only
the fonts in Typst's own wheel are used: every machine gives the same pages, with no internet.
"""

import json
import re
import tempfile
import unicodedata
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

import typst

from shuntbook.document.grey import grey
from shuntbook.document.shots import named_in
from shuntbook.kit.heap import give_back

Json = dict[str, Any]
Read = Callable[[str], bytes | None]
"""Reads a photo's picture (JPEG or PNG) by its SHA-256; None where it is damaged or absent."""
Made = bytes | list[bytes]
"""What Typst answers: one file, or of several pages as pictures one each."""
ATTACHED = "attached"
"""The key of the text that goes into the file as it is, which its template attaches: no letter of it is replaced."""
SETTERS = ThreadPoolExecutor(2, "setter-")
"""Two papers are set at once, others wait their turn: a record with 200 photos takes some 350 MB while it is set.

Always by the same two threads: each thread's heap keeps what a paper took at most, and a server has dozens of them.
"""
PAIRS_OF_HANDS = 2
FORGETS_AFTER = 11
"""Runs after which Typst lets go of what none of them asked for (its Python package evicts what is ten runs old).

A record of 200 photos left 50 MB behind each time, one of 18 small ones 7, other ones as the log grew, and ten of them
were kept.
"""
LACKING = re.compile(r"the text `\"(.+?)\"` could not be displayed")
SUBSTITUTE = "\N{REPLACEMENT CHARACTER}"
UNPRINTABLE = ("Cc", "Cf", "Cn", "Co", "Cs")
"""Unicode categories that have no place on paper: controls, direction overrides, what is assigned to nothing."""


def pdf(data: Json, read: Read, at: datetime) -> bytes:
    """Return `data` set by the template that it names; `at` is the file's date, so that equal data is equal bytes.

    A character that no font has is shown as U+FFFD. `grey` in the data or beside a photo: it loses its colour.
    """
    standards = ["ua-1", "a-3a"] if ATTACHED in data else ["ua-1"]
    # Typst takes no part of a second, as which an entry may well have been written.
    made = _run(data, read, {"format": "pdf", "pdf_standards": standards, "timestamp": at.replace(microsecond=0)})
    return made if isinstance(made, bytes) else made[0]


def pages(data: Json, read: Read, ppi: float = 60) -> list[bytes]:
    """Return the same pages as PNG pictures, `ppi` pixels an inch."""
    made = _run(data, read, {"format": "png", "ppi": ppi})
    return [made] if isinstance(made, bytes) else made


def _run(data: Json, read: Read, how: Json) -> Made:
    return SETTERS.submit(_set, data, read, how).result()


def _set(data: Json, read: Read, how: Json) -> Made:
    # Typst takes pictures from a folder alone. It also keeps them out of this process's memory until they are set.
    with tempfile.TemporaryDirectory(prefix="shuntbook-") as name:
        folder = Path(name)
        _write_templates(folder, data["template"])
        absent = _write_pictures(folder, data, read)
        (folder / ATTACHED).write_text(data.get(ATTACHED, ""), "utf8")
        shown = {key: value for key, value in data.items() if key != ATTACHED}
        text = json.dumps(_printable(shown, absent), ensure_ascii=False)
        try:
            return _with_what_fonts_have(folder, text, how)
        finally:
            if named_in(data):
                _forget()


def _forget() -> None:
    """Have Typst let go of what it keeps of the papers before, for a next run that would ask for the same."""
    for _ in range(FORGETS_AFTER):
        typst.compile(b"", ignore_system_fonts=True)
    give_back()


def _with_what_fonts_have(folder: Path, text: str, how: Json) -> Made:
    """Set the text; where the standard refuses it for characters that no font has, set it without them."""
    try:
        made: Made = _compile(folder, text, how)
        return made
    except typst.TypstError as error:
        lacking = _lacking(error)
        left = _without(text, lacking)
        if left == text:
            raise
        # All are named at once; a second round is for what only showed once the first ones were gone.
        return _with_what_fonts_have(folder, left, how)


def _compile(folder: Path, text: str, how: Json) -> Any:
    return typst.compile(folder / "main.typ", root=folder, sys_inputs={"data": text}, ignore_system_fonts=True, **how)


def _write_templates(folder: Path, template: str) -> None:
    for name, text in _templates().items():
        (folder / name).write_bytes(text)
    main = f'#import "{template}.typ": document-of\n#document-of(json(bytes(sys.inputs.data)))\n'
    (folder / "main.typ").write_text(main)


def _write_pictures(folder: Path, data: Json, read: Read) -> set[str]:
    """Write the photos that the data shows, a few at a time; return those that could not be read."""

    def written(named: tuple[str, bool]) -> bool:
        digest, loses_colour = named
        picture = read(digest)
        if picture is not None:
            (folder / f"{digest}.pic").write_bytes(grey(picture) if loses_colour else picture)
        return picture is not None

    photos = list(named_in(data).items())
    # Shrinking is most of a long record's time, and Pillow lets other threads run meanwhile.
    with ThreadPoolExecutor(PAIRS_OF_HANDS) as pool:
        done = list(pool.map(written, photos))
    return {digest for (digest, _), is_there in zip(photos, done, strict=True) if not is_there}


@cache
def _templates() -> dict[str, bytes]:
    folder = files("shuntbook.document") / "templates"
    return {file.name: file.read_bytes() for file in folder.iterdir() if file.name.endswith(".typ")}


def _lacking(error: typst.TypstError) -> list[str]:
    return [re.sub(r"\\u\{([0-9a-f]+)\}", _character, found) for found in LACKING.findall(error.diagnostic)]


def _character(code: re.Match[str]) -> str:
    return chr(int(code[1], 16))


def _without(text: str, lacking: list[str]) -> str:
    for characters in sorted(lacking, key=len, reverse=True):
        text = text.replace(characters, SUBSTITUTE)
    return text


def _printable(value: Any, absent: set[str]) -> Any:
    if isinstance(value, str):
        return "".join(c if c == "\n" or unicodedata.category(c) not in UNPRINTABLE else " " for c in value)
    if isinstance(value, dict):
        printable = {key: _printable(item, absent) for key, item in value.items()}
        return {**printable, "held": False} if value.get("photo") in absent else printable
    if isinstance(value, list | tuple):
        return [_printable(item, absent) for item in value]
    return value
