"""Why a choice cannot be done: as few of its groups as are enough for that.

One choice cut off leaves all those that are alike; what of it is impossible by itself cuts them all off at once.
Found by halves (Junker, "QuickXplain: preferred explanations and relaxations for over-constrained problems", AAAI
2004).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from shuntbook.plan.problem import Problem

ASKS = 15
"""How often it is asked whether a part of a choice can be done, before what is left is taken as it is."""
Impossible = Callable[[Sequence[str]], bool]


@dataclass
class _Asked:
    impossible: Impossible
    left: int = ASKS

    def __call__(self, groups: Sequence[str]) -> bool:
        """Return whether these groups are certainly impossible; not certain where enough was asked."""
        self.left -= 1
        return self.left >= 0 and self.impossible(groups)


def core(groups: Sequence[str], impossible: Impossible) -> list[str]:
    """Return groups of an impossible choice that are impossible by themselves, most often as few as can be.

    groups: what matters most first. impossible: whether some groups certainly cannot be done together.
    """
    asked = _Asked(impossible)
    least, most = 0, len(groups)
    while least < most:
        middle = (least + most) // 2
        if asked(groups[:middle]):
            most = middle
        else:
            least = middle + 1
    if not least:
        return []
    # Those before the last are possible, with it they are not.
    return [*_needed(asked, groups[least - 1 : least], groups[: least - 1], is_new=True), groups[least - 1]]


def _needed(asked: _Asked, kept: Sequence[str], groups: Sequence[str], *, is_new: bool) -> list[str]:
    """Return which of `groups` it takes beside those kept; is_new: these were not asked about yet."""
    if not groups or (is_new and asked(kept)):
        return []
    if len(groups) == 1:
        return list(groups)
    half = len(groups) // 2
    later = _needed(asked, [*kept, *groups[:half]], groups[half:], is_new=True)
    earlier = _needed(asked, [*kept, *later], groups[:half], is_new=bool(later))
    return [*earlier, *later]


def by_weight(problem: Problem, inside: frozenset[str]) -> list[str]:
    """Return groups in the order of the goals: those of the first level first, then the most value."""
    levels = {group: place for place, level in reversed(list(enumerate(problem.levels))) for group in level}

    def place(group: str) -> tuple[int, int, str]:
        return levels.get(group, len(problem.levels)), -problem.values.get(group, 0), group

    return sorted(inside, key=place)
