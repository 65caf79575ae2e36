"""What one car's log costs, before it is added up with the other cars'."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import partial

from shuntbook.cost import answer
from shuntbook.cost.access import Share
from shuntbook.cost.adjusted import Adjustment
from shuntbook.cost.lines import Line
from shuntbook.kit.kept import Kept
from shuntbook.kit.money import Currency

NO_SHARE = Share()


@dataclass(frozen=True)
class CarCosts:
    """The lines of one car: jobs', access steps', each job line's share of access; corrections; stage km driven."""

    lines: list[Line]
    access: list[Line]
    shares: Mapping[str, Share]
    adjustments: list[Adjustment]
    km: Decimal
    answered: Kept[answer.CostLine]

    def answers(self, coin: Currency) -> list[answer.CostLine]:
        """Return the lines with each one's share of access."""
        found, told = [], answer.ToldMoney(coin)
        for line in (*self.lines, *self.access):
            share = self.shares.get(line.name, NO_SHARE)
            found.append(self.answered.of(line.name, (line, share), partial(answer.cost_line, line, share, told)))
        return found
