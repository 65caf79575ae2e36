"""Shrinks each group's mean towards that of all groups, by Bühlmann–Straub credibility.

Non-parametric empirical Bayes estimators (Klugman, Panjer & Willmot, *Loss Models*, "Empirical Bayes parameter
estimation"), X̄ᵢ the mean and mᵢ the weight of group i, r groups, m = Σmᵢ:

    v̂ = Σᵢⱼ mᵢⱼ(Xᵢⱼ − X̄ᵢ)² / Σ(nᵢ − 1)
    â = (m − Σmᵢ²/m)⁻¹ · (Σmᵢ(X̄ᵢ − X̄)² − v̂(r − 1))
    Zᵢ = mᵢ / (mᵢ + v̂/â),  μ̂ = ΣZᵢX̄ᵢ / ΣZᵢ,  estimate = Zᵢ·X̄ᵢ + (1 − Zᵢ)·μ̂

Sample: (3, 5, 7) and (6, 12, 9) give v̂ = 6.5, â = 35/6, Z = 35/48, estimates 133/24 and 203/24.
"""

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Generic, TypeVar

Key = TypeVar("Key", bound=Hashable)
Observation = tuple[Fraction, Fraction]
"""A value and its weight."""


@dataclass(frozen=True)
class Credibility(Generic[Key]):
    """Estimates by group. within: v̂, None where no group has two observations; between: â, never below 0.

    collective: μ̂, the mean that all are drawn towards; factors: Zᵢ, how far each group is believed.
    """

    within: Fraction | None
    between: Fraction
    collective: Fraction
    means: Mapping[Key, Fraction]
    factors: Mapping[Key, Fraction]

    def estimate(self, key: Key) -> Fraction:
        """Return the group's mean drawn towards that of all."""
        factor = self.factors[key]
        return factor * self.means[key] + (1 - factor) * self.collective


def credibility(groups: Mapping[Key, Sequence[Observation]]) -> Credibility[Key]:
    """Return the estimates of groups of (value, weight), each of at least one.

    Where the groups differ no more than chance would have it (â ≤ 0), where there is one group only, or none has two
    observations, nothing says that they differ at all: every factor is 0 and every estimate the mean of all.
    Errors: ValueError for no group, or one that is empty.
    """
    if not groups or not all(groups.values()):
        raise ValueError("credibility needs at least one group, and an observation in each")
    weights = {key: sum((w for _, w in group), Fraction(0)) for key, group in groups.items()}
    means = {key: sum((x * w for x, w in group), Fraction(0)) / weights[key] for key, group in groups.items()}
    within = _within(groups, means)
    between = Fraction(0) if within is None else max(Fraction(0), _between(weights, means, within))
    factors = {key: _factor(weight, within, between) for key, weight in weights.items()}
    believed = factors if any(factors.values()) else weights
    return Credibility(within, between, _mean(means, believed), means, factors)


def _within(groups: Mapping[Key, Sequence[Observation]], means: Mapping[Key, Fraction]) -> Fraction | None:
    freedom = sum(len(group) - 1 for group in groups.values())
    if freedom == 0:
        return None
    squares = (w * (x - means[key]) ** 2 for key, group in groups.items() for x, w in group)
    return sum(squares, Fraction(0)) / freedom


def _between(weights: Mapping[Key, Fraction], means: Mapping[Key, Fraction], within: Fraction) -> Fraction:
    if len(weights) == 1:
        return Fraction(0)
    whole, middle = sum(weights.values(), Fraction(0)), _mean(means, weights)
    spread = sum((weights[key] * (mean - middle) ** 2 for key, mean in means.items()), Fraction(0))
    unequal = whole - sum((weight**2 for weight in weights.values()), Fraction(0)) / whole
    return (spread - within * (len(weights) - 1)) / unequal


def _factor(weight: Fraction, within: Fraction | None, between: Fraction) -> Fraction:
    return Fraction(0) if within is None or between == 0 else weight / (weight + within / between)


def _mean(means: Mapping[Key, Fraction], weights: Mapping[Key, Fraction]) -> Fraction:
    whole = sum(weights.values(), Fraction(0))
    return sum((weights[key] * mean for key, mean in means.items()), Fraction(0)) / whole
