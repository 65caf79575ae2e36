"""What a wheel says it is made of, and that it is made of nothing else: locks, bill of materials, equal bytes."""

import json
import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tools"))

import sbom  # noqa: E402  # of tools/, which is no package

LEFT_OUT = (".git", ".venv", ".hypothesis", "*cache*", "node_modules", "build", "dist")
BILL = ROOT / "sbom" / "shuntbook.cdx.json"


def test_the_bill_is_cyclonedx_by_its_own_schema() -> None:
    # OWASP CycloneDX 1.6, the JSON schema that its library carries (ECMA-424).
    assert JsonStrictValidator(SchemaVersion.V1_6).validate_str(BILL.read_text(encoding="utf-8")) is None


def test_the_bill_names_what_the_locks_pin_and_nothing_else() -> None:
    listed = {(one["purl"], one["version"]) for one in json.loads(BILL.read_text(encoding="utf-8"))["components"]}
    parts = [*sbom.python_parts(), *sbom.app_parts()]
    made = {(one["purl"], one["version"]) for one in json.loads(sbom.bill(parts))["components"]}
    assert listed == made, "run `make schemas`"
    lines = sbom.PAGE.read_text(encoding="utf-8").splitlines()
    assert [one for one in parts if not any(f"| {one.name} | {one.version} |" in line for line in lines)] == []


def test_what_the_server_imports_directly_is_on_the_bill() -> None:
    names = {one.name for one in sbom.python_parts()}
    assert {"flask", "sqlite-utils", "pillow", "marshmallow", "ortools", "granian"} <= names
    assert not {"pytest", "mypy", "playwright"} & names


@pytest.mark.longer
def test_a_wheel_built_twice_has_equal_bytes_and_carries_the_bill(tmp_path: Path) -> None:
    # In a tree of its own: the libraries are fetched and the app is built anew, under the feet of whoever uses both.
    tree = shutil.copytree(ROOT, tmp_path / "tree", ignore=shutil.ignore_patterns(*LEFT_OUT))
    wheels = [_built(tree, tmp_path / name) for name in ("once", "again")]
    assert wheels[0].read_bytes() == wheels[1].read_bytes()
    with zipfile.ZipFile(wheels[0]) as wheel:
        carried = [name for name in wheel.namelist() if name.endswith(".dist-info/sboms/shuntbook.cdx.json")]
        assert [wheel.read(name) for name in carried] == [BILL.read_bytes()]


def _built(tree: Path, folder: Path) -> Path:
    """Return a wheel of a tree, dated as reproducible-builds.org/specs/source-date-epoch says."""
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    environment = {**os.environ, "SOURCE_DATE_EPOCH": "1790000000"}
    subprocess.run(command, cwd=tree, env=environment, check=True, capture_output=True, timeout=600)
    return next(folder.glob("*.whl"))
