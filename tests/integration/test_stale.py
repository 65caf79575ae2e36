"""What is written from the code is what the code would write now; what the documents name is there."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from api_page import page
from node import find_npm

from shuntbook.app import create_app
from shuntbook.cli import WHERE
from shuntbook.describing import openapi, schema_files
from shuntbook.store.database import Store

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize("name", sorted(schema_files()))
def test_schemas_are_as_the_code_writes_them(name: str) -> None:
    assert (ROOT / "schemas" / name).read_bytes() == schema_files()[name], "run `make schemas`"


def test_the_apps_types_are_as_openapi_gives_them(tmp_path: Path) -> None:
    pwa = tmp_path / "pwa"
    (pwa / "src" / "kit").mkdir(parents=True)
    (tmp_path / "schemas").mkdir()
    shutil.copy(ROOT / "schemas" / "openapi.json", tmp_path / "schemas")
    for name in ("package.json", "biome.json"):
        shutil.copy(ROOT / "pwa" / name, pwa)
    (pwa / "node_modules").symlink_to(ROOT / "pwa" / "node_modules")
    npm, path = find_npm()
    environment = {"PATH": ":".join([*path, "/usr/local/bin:/usr/bin:/bin", str(Path(npm[0]).parent)])}
    done = subprocess.run([*npm, "run", "types"], cwd=pwa, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    fresh = (pwa / "src" / "kit" / "openapi.d.ts").read_text()
    assert (ROOT / "pwa" / "src" / "kit" / "openapi.d.ts").read_text() == fresh, "run `make types`"


def test_every_command_is_in_its_page_and_every_command_there_exists() -> None:
    named = set(re.findall(r"^\| `shuntbook ([\w-]+)", (ROOT / "docs" / "commands.md").read_text(), re.MULTILINE))
    assert named == set(WHERE)


def test_every_make_target_that_the_documents_name_exists() -> None:
    text = (ROOT / "README.md").read_text() + (ROOT / "DEVELOPERS.md").read_text()
    lines = re.findall(r"^    make ([a-z ]+)|`make ([a-z ]+)`", text, re.MULTILINE)
    named = {word for line in lines for word in " ".join(line).split()}
    targets = set(re.findall(r"^([a-z]+):", (ROOT / "Makefile").read_text(), re.MULTILINE))
    assert {"demo", "test", "check", "bench"} <= named
    assert named <= targets


def test_every_call_of_the_api_is_described(tmp_path: Path) -> None:
    app = create_app(Store(tmp_path))
    described = app.test_client().get("/api/v1/openapi.json").get_json()["paths"]
    routes = {rule.rule for rule in app.url_map.iter_rules() if rule.rule.startswith("/api/v1/")}
    plain = {re.sub(r"<[^>]*:(\w+)>", r"{\1}", route) for route in routes} - {"/api/v1/openapi.json"}
    assert plain == set(described)


def test_every_folder_of_the_floor_plan_exists_and_every_package_is_on_it() -> None:
    plan = (ROOT / "DEVELOPERS.md").read_text()
    packages = {path.parent.name for path in (ROOT / "api" / "shuntbook").glob("*/__init__.py")}
    assert packages == {name for name in packages if re.search(rf"^      {name}/", plan, re.MULTILINE)}


def test_no_file_names_a_registry_or_a_path_of_a_machine() -> None:
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    hosts = re.compile("registry" + r"\.npmjs|pypi" + r"\.org|files\.python" + "hosted|/work" + "/|/root" + "/")
    packed = (".jpg", ".png", ".gif", ".ttf", ".woff2", ".zip", ".xz")
    texts = {name: ROOT / name for name in listed.split("\0") if name and not name.endswith(packed)}
    assert [name for name, path in texts.items() if path.is_file() and hosts.search(path.read_text())] == []


def test_the_page_about_the_api_is_as_the_code_writes_it() -> None:
    assert (ROOT / "docs" / "api.md").read_text() == page(openapi()), "run `make schemas`"


PAGES = sorted([*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md"), *(ROOT / "sample_reports").rglob("*.md")])


@pytest.mark.parametrize("where", PAGES, ids=lambda path: str(path.relative_to(ROOT)))
def test_every_link_between_the_documents_leads_somewhere(where: Path) -> None:
    links = re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", where.read_text())
    assert [link for link in links if not (where.parent / link).exists()] == []


def test_every_function_that_the_architecture_names_is_there() -> None:
    named = re.findall(r"`([\w./-]+\.(?:py|tsx?))::(\w+)`", (ROOT / "docs" / "architecture.md").read_text())
    assert len(named) > 20
    absent = [f"{file}::{name}" for file, name in named if not is_defined(ROOT / file, name)]
    assert absent == []


def is_defined(file: Path, name: str) -> bool:
    """Return whether a Python or TypeScript file defines a function, class, component or constant of that name."""
    words = rf"^\s*(?:export )?(?:default )?(?:async )?(?:def|class|function|const|interface|type) {name}\b"
    return file.exists() and re.search(words, file.read_text(), re.MULTILINE) is not None
