"""Adds to OpenAPI what the routes' own schemas do not say: entries by kind, answers, the sync envelope, the token."""

from typing import Any

from apispec import APISpec
from msgspec import Struct

from shuntbook.plan.answer import Plan, TeamPlan
from shuntbook.queue.answer import Queue, Release
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
        },
        "required": ["log_id", "cursor", "accepted", "rejected", "entries", "more"],
    },
}


ANSWERS: tuple[type[Struct], ...] = (Queue, Release, Plan, TeamPlan)
"""The values that calls answer with; what they are made of comes with them."""


def describe(spec: APISpec) -> None:
    """Add the components that are not made from marshmallow schemas."""
    spec.components.security_scheme("token", {"type": "http", "scheme": "bearer"})
    for components in (entry_components(), struct_components(ANSWERS), SYNC):
        for name, schema in components.items():
            # Two shapes of one name are an error here.
            spec.components.schema(name, schema)
    if "Rejected" not in spec.components.schemas:
        spec.components.schema("Rejected", schema=RejectedSchema)
