"""What was worked out of a car's log before: of an entry that comes in, only what it touches is worked out again.

One memory is of one car under one set-up. Entries never change, so that ids say what something was made of.
"""

from dataclasses import dataclass, field

from shuntbook.cost.access import Group
from shuntbook.cost.answer import CostLine
from shuntbook.cost.car_costs import CarCosts
from shuntbook.cost.lines import Line
from shuntbook.cost.told import ToldMemory
from shuntbook.fold.report import Report
from shuntbook.kit.kept import Kept


@dataclass(frozen=True)
class Memory:
    """Reports, and what is told, by report; lines by job, access by service; lines as they are answered, by name.

    car: all of it, by the car's name: of a car that nothing came of nothing is looked at again.
    """

    car: Kept[CarCosts] = field(default_factory=Kept)
    reports: Kept[Report] = field(default_factory=Kept)
    told: ToldMemory = field(default_factory=ToldMemory)
    lines: Kept[list[Line]] = field(default_factory=Kept)
    access: Kept[Group] = field(default_factory=Kept)
    answered: Kept[CostLine] = field(default_factory=Kept)
