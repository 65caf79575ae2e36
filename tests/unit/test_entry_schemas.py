"""The schemas of entries name every field that the classes decode, whatever it is called."""

import pytest

from shuntbook.report.entry import Envelope
from shuntbook.report.kinds import KINDS
from shuntbook.wire.entries import entry_components


@pytest.mark.parametrize("kind", KINDS)
def test_no_field_is_left_out(kind: str) -> None:
    cls = KINDS[kind]
    schema = entry_components()[cls.__name__]
    assert set(schema.get("properties", {})) == set(cls.__struct_fields__)
    assert "title" not in schema, "a caption of the class, which the type already has as its name"


@pytest.mark.parametrize("kind", KINDS)
def test_no_field_beside_the_data_is_left_out(kind: str) -> None:
    schema = entry_components()[f"{KINDS[kind].__name__}Entry"]
    assert set(schema["properties"]) == set(Envelope.__struct_fields__)
