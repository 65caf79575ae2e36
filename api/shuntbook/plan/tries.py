"""The best choice of which there is a plan, found by trying one after the other, the best that could be first.

Rule: what is cut off is certainly impossible. What stays open is set aside, and stays a bound until it is decided.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, field, replace

from shuntbook.plan.alone import Crews, Tried, tried
from shuntbook.plan.choice import Master
from shuntbook.plan.crews import assign, each_alone
from shuntbook.plan.found import Effort, Found
from shuntbook.plan.impossible import by_weight, core
from shuntbook.plan.problem import Problem, Reached

TRIED = 0.45
"""Deterministic seconds for one choice tried by itself: one that can be done is mostly found in a tenth of it."""
NAMED = 0.6
"""Deterministic seconds for a choice that can be done by people who are counted, asked by name."""
ASKED = 0.05
"""Deterministic seconds for what could be in a plan, asked without times."""
PART_OF = 0.05
"""Deterministic seconds for what a choice has of the levels, asked whether that is why the whole is impossible."""
ASIDE = 2
"""How many choices are set aside that stay open."""
TRIES = 0.8
"""How much of the effort the choices tried one by one may take, before the whole model chooses."""
CHOICES = 200
"""How many choices are tried one by one: making a model costs time that the solver does not count."""
WHY = 0.0005
"""Deterministic seconds for a part of a choice, asked whether it is why the whole is impossible: what is seen is seen
at once."""
WHYS = 0.1
"""How much of the effort may be spent on why choices are impossible; then they are cut off whole."""
SEEN = 0.002
"""Deterministic seconds: what took longer to be seen as impossible is not asked why."""
MADE = 0.00001
"""Deterministic seconds for which making a model stands, by task: the solver does not count it."""


@dataclass
class Tries:
    """What came of trying choices one by one: a plan, of the best where all it reaches is proven; what is known.

    spent: deterministic seconds.
    """

    found: Found | None = None
    master: Master | None = None
    bounds: list[Reached] = field(default_factory=list)
    spent: float = 0.0


def best_choice(problem: Problem, crews: Crews, effort: Effort) -> Tries:
    """Return a plan of the best choice of which there is one: then nothing betters it.

    Where that stays open: what was cut off, and what no plan reaches more of. What could not be decided is set aside:
    nothing but that, or what has all of its tasks, could better the plan of a choice tried after it.
    """
    master = Master(problem, ASKED)
    tries, reasons = Tries(master=master), Reasons(problem, crews, WHYS * effort.deterministic_s)
    aside: list[list[Reached]] = []
    bounds: list[Reached] = []
    for _ in range(CHOICES):
        wanted = master.best()
        if wanted is None:
            break
        inside, bounds = wanted
        attempt = reasons.with_names(inside, reasons.asked(inside, TRIED))
        if attempt.found is not None:
            reached = master.short_of(inside, aside[0]) if aside else bounds
            tries.found = replace(attempt.found, reached=reached, spent=reasons.spent)
            break
        why = reasons.of(inside, attempt)
        if why is not None:
            master.cut(why, inside)
        elif len(aside) < ASIDE:
            aside.append(bounds)
            master.set_aside(inside)
        if reasons.spent > TRIES * effort.deterministic_s or (why is None and aside[-1] is not bounds):
            break
    # What was set aside first, or tried last, is the best of all that is left.
    tries.bounds, tries.spent = aside[0] if aside else bounds, reasons.spent
    return tries


@dataclass
class Reasons:
    """Why choices are impossible: as few of their groups as are certainly impossible by themselves.

    left: deterministic seconds for why what is impossible at a glance is so. unseen: groups that were asked about and
    not seen to be impossible. spent: deterministic seconds, of all asked.
    """

    problem: Problem
    crews: Crews
    left: float
    unseen: list[frozenset[str]] = field(default_factory=list)
    spent: float = 0.0

    def of(self, inside: frozenset[str], attempt: Tried) -> Collection[str] | None:
        """Return groups of a choice that are impossible by themselves; None where not even all of them are for sure.

        What comes before value is asked by itself: where that is impossible, no choice of what has value needs to be
        tried beside it, and where the whole stays open the part is often seen.
        """
        known: tuple[Collection[str], float] | None = (inside, attempt.spent) if attempt.impossible else None
        for part in first_levels(self.problem, inside):
            if any(part <= groups for groups in self.unseen):
                break
            asked = self.asked(part, PART_OF, inside)
            if not asked.impossible:
                self.unseen.append(part)
                break
            known = part, asked.spent
        # What took long to be seen is not seen in a part of it at a glance.
        if known is None or known[1] >= SEEN or self.left <= 0:
            return known and known[0]
        begun = self.spent
        least = by_weight(self.problem, frozenset(known[0]))
        found = core(least, lambda groups: self.asked(groups, WHY, inside).impossible)
        self.left -= self.spent - begun
        return found

    def with_names(self, inside: frozenset[str], counted: Tried) -> Tried:
        """Return what came of a choice once everyone has a name; what was counted, where that stays open.

        Counted they may be enough and named not, since nobody looks at his own work. Mostly the tasks need only be
        moved a little then.
        """
        if counted.found is None or assign(self.problem, counted.found.times) is not None:
            return counted
        by_name = tried(self.problem, each_alone, inside, NAMED)
        self.spent += by_name.spent + MADE * len(self.problem.tasks)
        return by_name if by_name.found is not None or by_name.impossible else counted

    def asked(self, groups: Collection[str], deterministic_s: float, whole: frozenset[str] | None = None) -> Tried:
        """Ask for a plan of these groups, and count what it took."""
        attempt = tried(self.problem, self.crews, groups, deterministic_s, whole)
        self.spent += attempt.spent + MADE * len(self.problem.tasks)
        return attempt


def first_levels(problem: Problem, inside: frozenset[str]) -> Iterator[frozenset[str]]:
    """Yield what a choice has of the levels, then of all but the last of them, and so on, as far as it is less."""
    last = inside
    for many in range(len(problem.levels), 0, -1):
        part = inside.intersection(*[frozenset().union(*problem.levels[:many])])
        if part and part != last:
            yield part
        last = part
