"""Sees to a browser for the browser tests: the machine's Chromium, else one that can be installed here.

On Debian as root that is the `chromium` package; elsewhere Playwright's own download.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path


def main() -> int:
    """Install a browser where there is none; return an exit status."""
    if shutil.which("chromium"):
        return 0
    if Path("/etc/debian_version").exists() and os.geteuid() == 0:
        environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        for command in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", "chromium"]):
            status = subprocess.run(["apt-get", *command], env=environment, check=False).returncode  # noqa: S603, S607
            if status != 0:
                return status
        return 0
    return subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
