"""Required fields of answers, so that a schema reads as a list of names."""

from typing import Any

from marshmallow import Schema, fields, validate


def text() -> fields.String:
    """Return a field of text."""
    return fields.String(required=True)


def maybe() -> fields.String:
    """Return a field of text or null."""
    return fields.String(required=True, allow_none=True)


def ids() -> fields.List[Any]:
    """Return a field of a list of names or ids."""
    return fields.List(fields.String(), required=True)


def count() -> fields.Integer:
    """Return a field of a whole number."""
    return fields.Integer(required=True)


def number() -> fields.Float:
    """Return a field of a number."""
    return fields.Float(required=True)


def flag() -> fields.Boolean:
    """Return a field of true or false."""
    return fields.Boolean(required=True)


def one_of(words: tuple[str, ...]) -> fields.String:
    """Return a field of one word of a closed list."""
    return fields.String(required=True, validate=validate.OneOf(words))


def nested(schema: type[Schema]) -> fields.Nested:
    """Return a field of one object."""
    return fields.Nested(schema, required=True)


def many(schema: type[Schema]) -> fields.List[Any]:
    """Return a field of a list of objects."""
    return fields.List(fields.Nested(schema), required=True)
