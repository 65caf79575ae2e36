"""Sees to what the browser tests need: the machine's Chromium, else one that can be installed here, and certutil.

On Debian as root that is the `chromium` package; elsewhere Playwright's own download. certutil puts a CA among those
that Chromium trusts; on Debian it is in libnss3-tools, elsewhere in nss-tools.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

PACKAGES = {"chromium": "chromium", "certutil": "libnss3-tools"}
"""The package of each program on Debian."""


def main() -> int:
    """Install what is not there; return an exit status."""
    missing = [program for program in PACKAGES if shutil.which(program) is None]
    if not missing:
        return 0
    if Path("/etc/debian_version").exists() and os.geteuid() == 0:
        return _by_apt([PACKAGES[program] for program in missing])
    if "certutil" in missing:
        sys.stderr.write("certutil is not here (libnss3-tools, nss-tools); the tests of HTTPS need it and will fail.\n")
    if "chromium" not in missing:
        return 0
    return subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], check=False).returncode


def _by_apt(packages: list[str]) -> int:
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *packages]):
        status = subprocess.run(["apt-get", *command], env=environment, check=False).returncode  # noqa: S603, S607
        if status != 0:
            return status
    return 0


if __name__ == "__main__":
    sys.exit(main())
