"""Writes what a wheel brings and calls for: a bill of materials (CycloneDX 1.6), and the licences for people.

    python tools/sbom.py

`sbom/shuntbook.cdx.json` goes into each wheel (PEP 770), `docs/licences.md` is for people. Both are made from the two
locks, what is installed here (for the licences) and nothing else: no clock, no chance, no registry.
"""

import base64
import json
import re
import tomllib
import uuid
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import metadata
from pathlib import Path
from typing import Any

from cyclonedx.contrib.license.factories import LicenseFactory
from cyclonedx.model import HashAlgorithm, HashType
from cyclonedx.model.bom import Bom
from cyclonedx.model.component import Component, ComponentType
from cyclonedx.output.json import JsonV1Dot6
from packageurl import PackageURL
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[1]
SBOM = ROOT / "sbom" / "shuntbook.cdx.json"
PAGE = ROOT / "docs" / "licences.md"
MADE_FROM = uuid.UUID("6f0e3f4e-5a50-5d0b-9d43-0a8f6f5c2b11")
"""The namespace of the bill's serial number, which follows from its content (RFC 9562, version 5)."""
HEAD = """# Licences

What an installed Shuntbook calls for, and what its app has in it. Made by `tools/sbom.py`; the same, with hashes, is in
every wheel as a CycloneDX file (`.dist-info/sboms/`).
"""
PINNED = re.compile(r"^([A-Za-z0-9_.-]+)==([^\s;\\]+)")
SILENT, ELSEWHERE = "says nothing", "not installed where this was made"
UNKNOWN = (SILENT, ELSEWHERE)
CLASSIFIED = "License :: OSI Approved :: "


@dataclass(frozen=True)
class Part:
    """A library: where it is from (`pypi` or `npm`), its licence in words, and the SHA-512 of its archive if known."""

    kind: str
    name: str
    version: str
    licence: str
    sha512: str | None = None


def main() -> None:
    """Write both files."""
    parts = [*python_parts(), *app_parts()]
    SBOM.parent.mkdir(exist_ok=True)
    SBOM.write_text(bill(parts), encoding="utf-8")
    PAGE.write_text(page(parts), encoding="utf-8")


def python_parts() -> list[Part]:
    """Return what the server calls for, directly or not, at the versions of requirements.lock, by name."""
    pinned = dict(_pinned((ROOT / "requirements.lock").read_text(encoding="utf-8")))
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    names: set[str] = {canonicalize_name(Requirement(one).name) for one in project["dependencies"]}
    found: set[str] = set()
    while open_ones := (names & set(pinned)) - found:
        found |= open_ones
        names |= {wanted for name in open_ones for wanted in _wanted(name)}
    return [Part("pypi", name, pinned[name], python_licence(name)) for name in sorted(found)]


def _pinned(lock: str) -> Iterator[tuple[str, str]]:
    for line in lock.splitlines():
        if pin := PINNED.match(line):
            yield canonicalize_name(pin[1]), pin[2]


def _wanted(name: str) -> Iterator[str]:
    """Yield what a library calls for on any machine; its extras are no part of it."""
    try:
        lines = metadata.requires(name) or []
    except metadata.PackageNotFoundError:  # one for another operating system
        return
    for line in lines:
        one = Requirement(line)
        if "extra" not in str(one.marker):
            yield canonicalize_name(one.name)


def python_licence(name: str) -> str:
    """Return what an installed library says of its licence; one that is not installed says nothing."""
    try:
        says = metadata.metadata(name)
    except metadata.PackageNotFoundError:
        return ELSEWHERE
    classified = [line.removeprefix(CLASSIFIED) for line in says.get_all("Classifier", []) if CLASSIFIED in line]
    expression, longer = (says.json.get(key, "") for key in ("license_expression", "license"))
    return str(expression or str(longer).strip().partition("\n")[0] or ", ".join(classified) or SILENT)


def app_parts() -> list[Part]:
    """Return the libraries in the app, by name: those of package-lock.json that are not for its making alone."""
    lock = json.loads((ROOT / "pwa" / "package-lock.json").read_text(encoding="utf-8"))
    found = {
        Part("npm", _npm_name(path), one["version"], one.get("license", SILENT), one.get("integrity"))
        for path, one in lock["packages"].items()
        if path and not one.get("dev")
    }
    return sorted(found, key=lambda one: (one.name, one.version))


def _npm_name(path: str) -> str:
    return path.rpartition("node_modules/")[2]


def bill(parts: list[Part]) -> str:
    """Return the CycloneDX file: sorted, and with a serial number that follows from the rest."""
    version = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["version"]
    bom = Bom()
    root = Component(name="shuntbook", version=version, type=ComponentType.APPLICATION, bom_ref="shuntbook")
    bom.metadata.component = root
    components = [_component(part) for part in parts]
    for component in components:
        bom.components.add(component)
    bom.register_dependency(root, components)
    said: dict[str, Any] = json.loads(JsonV1Dot6(bom).output_as_string())
    del said["metadata"]["timestamp"]
    said.pop("serialNumber")
    said["serialNumber"] = uuid.uuid5(MADE_FROM, json.dumps(said, sort_keys=True)).urn
    return json.dumps(said, indent=1, sort_keys=True, ensure_ascii=False) + "\n"


def _component(part: Part) -> Component:
    group, _, name = part.name.rpartition("/")
    url = PackageURL(part.kind, group or None, name, part.version)
    hashes = [HashType(alg=HashAlgorithm.SHA_512, content=_hex(part.sha512))] if part.sha512 else []
    licences = [LicenseFactory().make_from_string(part.licence)] if part.licence not in UNKNOWN else []
    return Component(
        name=name,
        group=group or None,
        version=part.version,
        purl=url,
        bom_ref=str(url),
        licenses=licences,
        hashes=hashes,
    )


def _hex(integrity: str) -> str:
    """Return a hash in hexadecimal digits from npm's form, `sha512-` and base64 (W3C Subresource Integrity)."""
    return base64.b64decode(integrity.removeprefix("sha512-")).hex()


def page(parts: list[Part]) -> str:
    """Return the page for people."""
    names = {"pypi": "Server", "npm": "App"}
    lines = [HEAD]
    for kind, title in names.items():
        lines += [f"\n## {title}\n", "| library | version | licence |", "|---|---|---|"]
        lines += [f"| {one.name} | {one.version} | {one.licence} |" for one in parts if one.kind == kind]
    lines += ["\nThe font is Atkinson Hyperlegible Next, under the SIL Open Font License 1.1."]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    main()
