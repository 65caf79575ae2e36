"""Wheels: which jobs take one off, and what is common about fitting it."""

from fractions import Fraction

from shuntbook.queue.answer import Job
from shuntbook.setup.rates import Operation, ThreePoint

NUT_CHECK, WHEEL_OFF = "wheel-nut-torque", "wheel-off"
ON_THE_WHEEL, FITS = ("wheel", "tyre"), ("swap", "replace", "change", "fit", "refit")
FETCHING = ThreePoint(Fraction(0), Fraction(1, 2), Fraction(1))
"""A fresh wheel where the old one is off anyway costs only the fetching (common practice, no source)."""


def takes_wheel_off(job: Job, row: Operation | None) -> bool:
    """Return whether the job itself is taking a wheel off and putting one on."""
    return row is not None and not row.ground and job.component in ON_THE_WHEEL and row.action in FITS
