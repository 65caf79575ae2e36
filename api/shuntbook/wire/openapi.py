"""Adds to OpenAPI what the routes' own schemas do not say: entries by kind, answers, the sync envelope, the token."""

from typing import Any

from apispec import APISpec
from msgspec import Struct

from shuntbook.cost.answer import Costs
from shuntbook.cost.statement_answer import Statements
from shuntbook.plan.answer import Plan, TeamPlan
from shuntbook.queue.answer import Queue, Release
from shuntbook.report.kinds import KINDS
from shuntbook.season.observed import Observed
from shuntbook.season.season import Season
from shuntbook.season.spares import Spares
from shuntbook.season.timed import Accepted
from shuntbook.wire.entries import REF, entry_components, struct_components
from shuntbook.wire.store_schemas import RejectedSchema

SYNC: dict[str, dict[str, Any]] = {
    "SyncRequest": {
        "type": "object",
        "properties": {
            "log_id": {"type": ["string", "null"], "description": "the log that the cursor counts in"},
            "cursor": {"type": "integer", "minimum": 0},
            "entries": {"type": "array", "maxItems": 500, "items": {"$ref": REF.format(name="Entry")}},
            "now": {"type": ["string", "null"], "format": "date-time", "description": "the device's clock"},
        },
    },
    "SyncAnswer": {
        "type": "object",
        "properties": {
            "log_id": {"type": "string"},
            "cursor": {"type": "integer"},
            "accepted": {"type": "array", "items": {"type": "string"}},
            "rejected": {"type": "array", "items": {"$ref": REF.format(name="Rejected")}},
            "entries": {"type": "array", "items": {"$ref": REF.format(name="Entry")}},
            "more": {"type": "boolean"},
            "setup": {"type": "string", "description": "the ETag of /setup, without its marks"},
            "set_aside": {"type": "string", "description": "another where something was set aside or decided on"},
            "cars": {
                "type": "array",
                "items": {
                    "type": "object",
                    "properties": {"event": {"type": "string"}, "car": {"type": "string"}},
                    "required": ["event", "car"],
                },
                "description": "whose queue or costs may be others by the entries after the phone's cursor",
            },
        },
        # A server of 0.1.0 says none of the last three.
        "required": ["log_id", "cursor", "accepted", "rejected", "entries", "more"],
    },
}


ANSWERS: tuple[type[Struct], ...] = (
    Queue,
    Release,
    Plan,
    TeamPlan,
    Costs,
    Statements,
    Observed,
    Accepted,
    Spares,
    Season,
)
"""The values that calls answer with; what they are made of comes with them."""


def describe(spec: APISpec) -> None:
    """Add the components that are not made from marshmallow schemas."""
    spec.components.security_scheme("token", {"type": "http", "scheme": "bearer"})
    # Entries and answers in one go: they share shapes, and two shapes of one name would get long names (a test looks).
    values = struct_components([*KINDS.values(), *ANSWERS])
    for name, schema in {**values, **entry_components(), **SYNC}.items():
        spec.components.schema(name, schema)
    if "Rejected" not in spec.components.schemas:
        spec.components.schema("Rejected", schema=RejectedSchema)
