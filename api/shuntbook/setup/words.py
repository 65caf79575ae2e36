"""The closed vocabularies that entries, car map and rate table share."""

from typing import Literal, get_args

UNKNOWN: Literal["unknown"] = "unknown"

Condition = Literal[
    "unknown", "marked", "worn", "loose", "bent", "cracked", "leaking", "flat", "seized", "broken", "missing"
]
"""How bad a component is, worst last; `unknown` means: to be looked at."""

CONDITIONS: tuple[str, ...] = get_args(Condition)

ROW_CONDITIONS = CONDITIONS[1:]
"""Conditions that a rate table can have rows for: what is unknown is inspected."""

FIXED_GROUPS = frozenset({"cage", "brake", "steering"})
"""Component groups that are safety-critical whatever a team's car map says."""

ZONE_KINDS = ("corner", "end", "side", "roof", "underside", "engine", "cabin", "boot")

ROLES = ("driver", "co-driver", "mechanic", "inspector", "manager")


def job_key(zone: str, component: str) -> str:
    """Return the key `zone/component` that names a job."""
    return f"{zone}/{component}"


def split_key(key: str) -> tuple[str, str]:
    """Return (zone, component) of a job's key."""
    zone, _, component = key.partition("/")
    return zone, component


def is_job_key(text: str) -> bool:
    """Return whether `text` has a zone and a component with one slash between them."""
    zone, _, component = text.partition("/")
    return bool(zone) and bool(component) and "/" not in component
