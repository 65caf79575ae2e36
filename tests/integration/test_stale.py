"""What is written from the code is what the code would write now; what the documents name is there."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from node import find_npm

from shuntbook.app import create_app
from shuntbook.cli import WHERE
from shuntbook.describing import schema_files
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


def test_every_command_is_in_the_readme_and_every_command_there_exists() -> None:
    named = set(re.findall(r"^\| `shuntbook ([\w-]+)", (ROOT / "README.md").read_text(), re.MULTILINE))
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
    packed = (".jpg", ".png", ".ttf", ".zip", ".xz")
    texts = {name: ROOT / name for name in listed.split("\0") if name and not name.endswith(packed)}
    assert [name for name, path in texts.items() if path.is_file() and hosts.search(path.read_text())] == []
