"""The schemas of entries, one per kind, and of answers, made from the classes that they are in the code."""

from collections.abc import Iterable
from inspect import cleandoc
from typing import Any

import msgspec

from shuntbook.report.kinds import KINDS

Json = dict[str, Any]
REF = "#/components/schemas/{name}"


def entry_components() -> dict[str, Json]:
    """Return JSON Schemas by name: the data of each kind, an entry of each kind, and `Entry`, any of them."""
    components = struct_components(KINDS.values())
    for kind, cls in KINDS.items():
        components[f"{cls.__name__}Entry"] = _entry_schema(kind, cls.__name__)
    members = [f"{cls.__name__}Entry" for cls in KINDS.values()]
    mapping = {kind: REF.format(name=f"{cls.__name__}Entry") for kind, cls in KINDS.items()}
    components["Entry"] = {
        "oneOf": [{"$ref": REF.format(name=name)} for name in members],
        "discriminator": {"propertyName": "kind", "mapping": mapping},
    }
    return components


def struct_components(kinds: Iterable[type[msgspec.Struct]]) -> dict[str, Json]:
    """Return JSON Schemas by name of msgspec classes and of all that they are made of."""
    _, found = msgspec.json.schema_components(kinds, ref_template=REF)
    return {name: _data_schema(schema) for name, schema in found.items()}


def _data_schema(schema: Any) -> Any:
    """Return msgspec's schema with decimals as JSON has them: numbers, or text where it is money."""
    if isinstance(schema, dict):
        if schema.get("format") == "decimal":
            return {"type": ["number", "string"], **{k: v for k, v in schema.items() if k == "default"}}
        kept = {key: _data_schema(value) for key, value in schema.items() if not _is_caption(key, value)}
        if isinstance(kept.get("description"), str):
            kept["description"] = cleandoc(kept["description"])
        return {"type": "string", **kept} if _is_words(schema.get("enum")) else kept
    return [_data_schema(item) for item in schema] if isinstance(schema, list) else schema


def _is_words(enum: Any) -> bool:
    # msgspec leaves out what kind of value a closed list of words holds.
    return isinstance(enum, list) and all(isinstance(word, str) for word in enum)


def _is_caption(key: str, value: Any) -> bool:
    # msgspec captions each class with its name; a field that is called title has a schema as its value.
    return key == "title" and isinstance(value, str)


def _entry_schema(kind: str, data: str) -> Json:
    text: Json = {"type": "string", "minLength": 1}
    return {
        "type": "object",
        "properties": {
            "id": {**text, "format": "uuid", "description": "UUIDv7 (RFC 9562), made on the device"},
            "v": {"const": 1},
            "kind": {"const": kind},
            "event": text,
            "car": text,
            "subject": {"type": ["string", "null"], "description": "the report's id, the job's key, or null"},
            "at": {"type": "string", "format": "date-time"},
            "said_at": {
                "type": ["string", "null"],
                "format": "date-time",
                "description": "when it was said or written on paper, if it was typed in later",
            },
            "device": text,
            "seq": {"type": "integer", "minimum": 1},
            "person": text,
            "data": {"$ref": REF.format(name=data)},
            "sig": {"type": ["string", "null"], "description": "the device's signature, r‖s as base64url"},
        },
        "required": ["id", "v", "kind", "event", "car", "at", "device", "seq", "person", "data"],
    }


def standalone(components: dict[str, Json], root: str) -> Json:
    """Return one JSON Schema (2020-12) that stands by itself, from the components that `root` reaches."""
    needed = _reached(components, root)
    text = msgspec.json.encode({name: components[name] for name in sorted(needed)}).decode()
    definitions = msgspec.json.decode(text.replace("#/components/schemas/", "#/$defs/"))
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$ref": f"#/$defs/{root}",
        "$defs": definitions,
    }


def _reached(components: dict[str, Json], root: str) -> set[str]:
    found: set[str] = set()
    todo = [root]
    while todo:
        name = todo.pop()
        if name not in found:
            found.add(name)
            todo += _refs(components[name])
    return found


def _refs(value: Any) -> list[str]:
    if isinstance(value, dict):
        here = [value["$ref"].rsplit("/", 1)[1]] if isinstance(value.get("$ref"), str) else []
        return here + [name for key, item in value.items() if key != "mapping" for name in _refs(item)]
    if isinstance(value, list):
        return [name for item in value for name in _refs(item)]
    return []
