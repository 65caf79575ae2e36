"""A case: the set-up's files, the entries, the car that is asked for, and the rule that it is about."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from making import Json, Pen
from small_event import small_files

Write = Callable[[Pen], list[Json]]


@dataclass(frozen=True)
class Case:
    """A small event; `rule` is the sentence that it holds the queue to."""

    name: str
    rule: str
    entries: list[Json]
    car: str = "41"
    set_aside: Sequence[str] = ()
    set_aside_more: int = 0
    files: dict[str, bytes] = field(default_factory=small_files)


def collector(cases: list[Case]) -> Callable[..., Callable[[Write], Write]]:
    """Return a decorator that turns a function of a pen into a case named like it, its docstring the rule.

    files: set-up files in place of the small event's own, as `small_files` names them.
    """

    def case(
        car: str = "41", set_aside: Sequence[str] = (), set_aside_more: int = 0, **files: bytes
    ) -> Callable[[Write], Write]:
        def collect(write: Write) -> Write:
            name = write.__name__.replace("_", "-")
            entries = write(Pen("small-2026"))
            rule, made = (write.__doc__ or "").strip(), small_files(**files)
            cases.append(Case(name, rule, entries, car, set_aside, set_aside_more, made))
            return write

        return collect

    return case
