"""Shuntbook: from a hit on a stage to the repair queue, the sign-off and the bill."""

__version__ = "0.1.0"
