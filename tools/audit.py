"""Asks for known weaknesses of what is pinned, where a registry answers such questions; says so where none does.

    python tools/audit.py

Exits 1 only where a weakness is known; a registry that does not answer is no finding, and no all-clear either.
"""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

from node import PWA, find_npm

ROOT = Path(__file__).resolve().parent.parent


def main() -> int:
    """Ask about both locks; return an exit status."""
    found = [*python_weaknesses(), *app_weaknesses()]
    for line in found:
        say(line)
    return 1 if found else 0


def python_weaknesses() -> list[str]:
    """Return the known weaknesses of requirements.lock, a line each."""
    lock = str(ROOT / "requirements.lock")
    command = [sys.executable, "-m", "pip_audit", "--disable-pip", "--require-hashes", "-r", lock, "-f", "json"]
    answer = asked(command, ROOT)
    packages = answer.get("dependencies", [])
    audited = [package for package in packages if "skip_reason" not in package]
    say(f"Python: {len(audited)} of {len(packages)} packages could be asked about.")
    return [f"{package['name']}: {flaw['id']}" for package in audited for flaw in package["vulns"]]


def app_weaknesses() -> list[str]:
    """Return the known weaknesses of what the app ships, a line each."""
    npm, path = find_npm()
    environment = {**os.environ, "PATH": os.pathsep.join([*path, os.environ.get("PATH", "")])}
    answer = asked([*npm, "audit", "--omit=dev", "--json"], PWA, environment)
    if "vulnerabilities" not in answer:
        say("App: no registry answered, so that nothing is known.")
        return []
    say(f"App: {answer['metadata']['dependencies']['prod']} packages were asked about.")
    return [f"{name}: {flaw['severity']}" for name, flaw in answer["vulnerabilities"].items()]


def asked(command: list[str], folder: Path, environment: dict[str, str] | None = None) -> dict[str, Any]:
    """Return the JSON that a command prints, an empty object where it prints none."""
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=False)  # noqa: S603
    try:
        answer = json.loads(done.stdout)
    except json.JSONDecodeError:
        return {}
    return answer if isinstance(answer, dict) else {}


def say(line: str) -> None:
    """Print a line."""
    sys.stdout.write(f"{line}\n")


if __name__ == "__main__":
    sys.exit(main())
