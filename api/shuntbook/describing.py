"""The description of the API as files: OpenAPI 3.1 and JSON Schemas, made from the code."""

import json
import tempfile
from pathlib import Path
from typing import Any

from shuntbook.app import create_app
from shuntbook.store.database import Store
from shuntbook.wire.entries import standalone

ROOTS = ("Entry", "Queue", "Release", "Costs", "Setup", "Problem")
"""Schemas that also stand alone, one file each."""


def openapi() -> dict[str, Any]:
    """Return the OpenAPI 3.1 description that `/api/v1/openapi.json` serves."""
    with tempfile.TemporaryDirectory() as folder:
        answer = create_app(Store(Path(folder))).test_client().get("/api/v1/openapi.json")
        described: dict[str, Any] = answer.get_json()
        return described


def schema_files() -> dict[str, bytes]:
    """Return the files of schemas/ by name."""
    described = openapi()
    components = described["components"]["schemas"]
    files = {"openapi.json": _json(described)}
    for root in ROOTS:
        files[f"{root.lower()}.schema.json"] = _json(standalone(components, root))
    return files


def _json(value: Any) -> bytes:
    return json.dumps(value, indent=1, ensure_ascii=False, sort_keys=True).encode() + b"\n"
