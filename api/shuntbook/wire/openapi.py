"""Adds to OpenAPI what is made from the values' own classes, entries by kind and answers, and the token."""

from collections.abc import Iterable

from apispec import APISpec
from msgspec import Struct

from shuntbook.report.kinds import KINDS
from shuntbook.wire.entries import entry_components, struct_components


def describe(spec: APISpec, answers: Iterable[type[Struct]]) -> None:
    """Add the components that are not made from marshmallow schemas; what answers are made of comes with them."""
    spec.components.security_scheme("token", {"type": "http", "scheme": "bearer"})
    # Entries and answers in one go: they share shapes, and two shapes of one name would get long names (a test looks).
    values = struct_components([*KINDS.values(), *answers])
    for name, schema in {**values, **entry_components()}.items():
        spec.components.schema(name, schema)
