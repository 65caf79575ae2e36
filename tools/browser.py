"""Sees to what the browser tests need: the machine's Chromium, else one that can be installed here, and certutil.

On Debian as root that is the `chromium` package; elsewhere Playwright's own download. certutil puts a CA among those
that Chromium trusts; on Debian it is in libnss3-tools, elsewhere in nss-tools. What a screen reader needs is taken from
Debian alone: elsewhere its tests are left out, and the run's last lines say so.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

PACKAGES = {
    "chromium": "chromium",
    "certutil": "libnss3-tools",
    # tests/reader: a screen and an accessibility bus to read at, and Orca
    "Xvfb": "xvfb",
    "dbus-daemon": "dbus",
    "/usr/libexec/at-spi-bus-launcher": "at-spi2-core",
    "/usr/lib/python3/dist-packages/gi/__init__.py": "python3-gi",
    "/usr/lib/*/girepository-1.0/Atspi-2.0.typelib": "gir1.2-atspi-2.0",
    "orca": "orca",
}
"""The package of each program, or file, on Debian."""


def main() -> int:
    """Install what is not there; return an exit status."""
    missing = [program for program in PACKAGES if not _is_here(program)]
    if not missing:
        return 0
    if Path("/etc/debian_version").exists() and os.geteuid() == 0:
        return _by_apt([PACKAGES[program] for program in missing])
    if "certutil" in missing:
        sys.stderr.write("certutil is not here (libnss3-tools, nss-tools); the tests of HTTPS need it and will fail.\n")
    if "chromium" not in missing:
        return 0
    return subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], check=False).returncode


def _is_here(program: str) -> bool:
    """Say whether a program is on the path, or a file by its whole name, in which a star stands for any folder."""
    if program.startswith("/"):
        return any(Path("/").glob(program.removeprefix("/")))
    return shutil.which(program) is not None


def _by_apt(packages: list[str]) -> int:
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *packages]):
        status = subprocess.run(["apt-get", *command], env=environment, check=False).returncode  # noqa: S603, S607
        if status != 0:
            return status
    return 0


if __name__ == "__main__":
    sys.exit(main())
