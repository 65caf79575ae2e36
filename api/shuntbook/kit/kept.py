"""Values that are worked out again only where what they are made of is another."""

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

Made = TypeVar("Made")


class Kept(Generic[Made]):
    """By name, the last value with what it was made of. Who asks names all that the value follows from."""

    def __init__(self) -> None:
        self._held: dict[Hashable, tuple[object, Made]] = {}

    def of(self, name: Hashable, made_of: object, make: Callable[[], Made]) -> Made:
        """Return the value of a name: the one kept, where it was made of the same, else the one that `make` returns."""
        held = self._held.get(name)
        if held is not None and held[0] == made_of:
            return held[1]
        made = make()
        self._held[name] = (made_of, made)
        return made
