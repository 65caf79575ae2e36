"""Sees to what the browser tests need: the machine's own browsers, else what can be installed here, and certutil.

On Debian as root all of it comes by apt; elsewhere Chromium is Playwright's own download, and what else is missing is
told. certutil puts a CA among those that a browser trusts; on Debian it is in libnss3-tools, elsewhere in nss-tools.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

PACKAGES = {"chromium": "chromium", "certutil": "libnss3-tools", "firefox-esr": "firefox-esr"}
"""The package of each program on Debian."""

MISSED = {
    "certutil": "the tests of HTTPS need it (libnss3-tools, nss-tools) and will fail",
    "firefox-esr": "no test runs in Firefox",
}
"""What comes of it where a program can't be installed from here."""

ALSO = {"firefox-esr": "firefox"}
"""Programs that do as well."""


def main() -> int:
    """Install what is not there; return an exit status."""
    missing = [program for program in PACKAGES if not _is_here(program)]
    if not missing:
        return 0
    if Path("/etc/debian_version").exists() and os.geteuid() == 0:
        return _by_apt([PACKAGES[program] for program in missing])
    for program in missing:
        if program in MISSED:
            sys.stderr.write(f"{program} is not here: {MISSED[program]}.\n")
    if "chromium" not in missing:
        return 0
    return subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], check=False).returncode


def _is_here(program: str) -> bool:
    return any(shutil.which(name) is not None for name in (program, ALSO.get(program)) if name)


def _by_apt(packages: list[str]) -> int:
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *packages]):
        status = subprocess.run(["apt-get", *command], env=environment, check=False).returncode  # noqa: S603, S607
        if status != 0:
            return status
    return 0


if __name__ == "__main__":
    sys.exit(main())
