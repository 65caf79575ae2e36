"""What Orca, Debian's screen reader, speaks along the same story; part of `make check`."""

import re

import pytest

from .spoken import Orca
from .story import HOLD, STORY, Reader

MESSAGES = [
    "Started.",
    "Saved: finished.",
    "A PIN has 6 digits.",
    "Signed: 1 passed.",
]
KEY = re.compile(r"\b[a-z]+(-[a-z]+)*/[a-z]+")
"""A job's key, or another code of the program's own: "front-left/brake-hose"."""
TWICE = re.compile(r"(.{4,}?)[\s.,]*\1")
SYMBOLS = "×≥≤→−·"


@pytest.mark.orca
def test_orca_speaks_the_story(orca: Orca, reader: Reader) -> None:
    orca.speaks("Code entry.")
    for step in STORY:
        step.does(reader)
        orca.speaks(*step.spoken)
        if step.at:
            reader.ear.is_at(step.at)
    spoken = orca.spoken
    assert [text for text in MESSAGES if spoken.count(text) != 1] == []
    assert spoken.count(HOLD) == 4  # on arrival at the queue and at the job, of two people
    assert [text for text in spoken if text.strip(" .") in ("", "blank")] == []
    assert [text for text in spoken if KEY.search(text)] == []
    assert [text for text in spoken if TWICE.fullmatch(text)] == []
    assert [text for text in spoken if set(text) & set(SYMBOLS)] == []
