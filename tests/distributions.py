"""Distributions of scipy.stats, loaded when one is first asked for.

It takes a second, and each process of a run collects every file.
"""

from importlib import import_module
from typing import Any


def __getattr__(name: str) -> Any:
    """Return a distribution by its name in scipy.stats. Errors: AttributeError."""
    return getattr(import_module("scipy.stats"), name)
