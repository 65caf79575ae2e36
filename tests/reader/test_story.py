"""The story by the accessibility bus: what a screen reader is told after each tap, and what it reads down the page."""

from .story import INSPECTS, LOGS, REPAIRS, Reader, Step


def test_the_story_is_heard(reader: Reader) -> None:
    go_through(reader, LOGS)
    go_through(reader, REPAIRS)
    go_through(reader, INSPECTS)
    reader.ear.is_at(INSPECTS[-1].at or "")
    assert reader.ear.heard == []  # nothing is told of a second time


def go_through(reader: Reader, steps: list[Step]) -> None:
    for step in steps:
        step.does(reader)
        reader.ear.hears(step.heard)
        if step.at:
            reader.ear.is_at(step.at)
