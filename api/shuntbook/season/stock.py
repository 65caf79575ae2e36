"""How many of a part cover what an event may call for, by Poisson or gamma-Poisson calls of one or several pieces.

The chances of 0, 1, 2 … units come from Panjer's recursion (Panjer 1981; Klugman, Panjer & Willmot, *Loss Models*,
"The (a, b, 0) class" and "The recursive method"): g₀ = P(no call), gₖ = Σⱼ (a + b·j/k)·fⱼ·gₖ₋ⱼ. Poisson: a = 0,
b = mean; negative binomial with shape r and β = mean/r: a = β/(1 + β), b = (r − 1)·a. With one piece a call it is the
plain distribution. Sample: Poisson of mean 6: P(X ≤ 8) = 0.8472, and 14 is the least stock that covers 0.99834.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import exp, gcd, lcm, log1p

MOST_CALLS = 700.0
"""Beyond this mean the chance of no call is below what a float holds, and so is all that follows from it."""
SMALL = 1e-12
"""A cover is reached when no more than rounding is lacking: 0.95 must not miss 0.95 by the last bit."""


@dataclass(frozen=True)
class Calls:
    """How often a part is called for: `mean` times; shape r of the gamma behind it, None for Poisson."""

    mean: float
    shape: float | None = None

    @property
    def none(self) -> float:
        """Return the chance that the part is not called for at all."""
        if self.shape is None:
            return exp(-self.mean)
        return exp(-self.shape * log1p(self.mean / self.shape))

    @property
    def a_and_b(self) -> tuple[float, float]:
        """Return a and b of the recursion."""
        if self.shape is None:
            return 0.0, self.mean
        a = self.mean / (self.shape + self.mean)
        return a, (self.shape - 1) * a


def from_rate(calls: int, exposure: float, next_exposure: float) -> Calls:
    """Return Poisson calls of the next event at the rate observed: calls ÷ exposure."""
    return Calls(calls / exposure * next_exposure)


def from_few(calls: int, exposure: float, next_exposure: float) -> Calls:
    """Return what is to be expected where little is known: the rate itself is uncertain.

    Jeffreys' prior Gamma(½, 0) on the rate and Poisson counts give the rate Gamma(calls + ½, exposure), and the next
    count a negative binomial (Gelman et al., *Bayesian Data Analysis*, "Informative prior distributions": Poisson
    model parameterised in terms of rate and exposure).
    """
    shape = calls + 0.5
    return Calls(shape / exposure * next_exposure, shape)


def cover(calls: Calls, pieces: Mapping[Fraction, int], shares: list[float]) -> list[Fraction]:
    """Return for each of the rising `shares` the least stock with P(demand ≤ stock) ≥ share.

    pieces: how many calls asked for how many pieces. Errors: ValueError for a mean above MOST_CALLS.
    """
    if calls.mean > MOST_CALLS:
        raise ValueError(f"{calls.mean:.0f} calls are too many to calculate with")
    unit = _unit(pieces)
    sizes = {int(size / unit): count / sum(pieces.values()) for size, count in pieces.items()}
    found: list[Fraction] = []
    reached = 0.0
    for units, chance in enumerate(chances(calls, sizes)):
        reached += chance
        while len(found) < len(shares) and reached >= shares[len(found)] - SMALL:
            found.append(units * unit)
        if len(found) == len(shares):
            break
    return found


def chances(calls: Calls, sizes: Mapping[int, float]) -> Iterator[float]:
    """Yield the chances of 0, 1, 2 … units without end; sizes: the chance that a call is for so many units (≥ 1)."""
    a, b = calls.a_and_b
    held = [calls.none]
    yield held[0]
    while True:
        k = len(held)
        held.append(sum((a + b * j / k) * chance * held[k - j] for j, chance in sizes.items() if j <= k))
        yield held[k]


def _unit(pieces: Mapping[Fraction, int]) -> Fraction:
    """Return the greatest quantity that all are whole multiples of: 1 for wheels, ½ for half litres."""
    bottom = lcm(*(size.denominator for size in pieces))
    return Fraction(gcd(*(int(size * bottom) for size in pieces)), bottom)
