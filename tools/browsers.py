"""Sees to what the browser tests need: the machine's own browsers, else what can be installed here, and certutil.

On Debian as root all of it comes by apt; elsewhere Chromium is Playwright's own download, and what else is missing is
told. certutil puts a CA among those that a browser trusts; on Debian it is in libnss3-tools, elsewhere in nss-tools.
"""

import os
import shutil
import subprocess
import sys
from collections.abc import Iterable
from pathlib import Path

WEBKIT = {
    "WebKitWebDriver": "webkit2gtk-driver",
    "Xvfb": "xvfb",
    "/usr/lib/python3/dist-packages/gi": "python3-gi",
    "/usr/lib/*/girepository-1.0/WebKit2-4.1.typelib": "gir1.2-webkit2-4.1",
}
"""What tests/webkit can't do without."""

READER = {
    "Xvfb": "xvfb",
    "dbus-daemon": "dbus",
    "/usr/libexec/at-spi-bus-launcher": "at-spi2-core",
    "/usr/lib/python3/dist-packages/gi": "python3-gi",
    "/usr/lib/*/girepository-1.0/Atspi-2.0.typelib": "gir1.2-atspi-2.0",
}
"""What tests/reader can't do without: a screen and an accessibility bus to read at."""

OFFICE = {"soffice": "libreoffice-calc-nogui"}
"""A spreadsheet program that is not ours, for tests/office: 300 MB, and only fetched for the longer run."""

PACKAGES = {
    "chromium": "chromium",
    "chromium-headless-shell": "chromium-headless-shell",
    "certutil": "libnss3-tools",
    "firefox-esr": "firefox-esr",
    "update-ca-certificates": "ca-certificates",
    **WEBKIT,
    **READER,
    "orca": "orca",
    **OFFICE,
}
"""The package on Debian of each program, or of each file, by a pattern."""

MISSED = {
    "certutil": "the tests of HTTPS need it (libnss3-tools, nss-tools) and will fail",
    "firefox-esr": "no test runs in Firefox",
    "update-ca-certificates": "no test has the machine trust a CA, as WebKit needs it",
    **dict.fromkeys(READER, "no test hears what a screen reader says"),
    **dict.fromkeys(WEBKIT, "no test runs in WebKit"),
    "orca": "no test hears Orca",
    "soffice": "no test opens our workbooks in a spreadsheet program",
}
"""What comes of it where a program can't be installed from here."""

ALSO = {"firefox-esr": "firefox"}
"""Programs that do as well."""


def main() -> int:
    """Install what is not there; return an exit status."""
    lacking = missing(one for one in PACKAGES if one not in OFFICE or os.environ.get("SHUNTBOOK_LONGER"))
    if not lacking:
        return 0
    if Path("/etc/debian_version").exists() and os.geteuid() == 0:
        return _by_apt([PACKAGES[program] for program in lacking])
    for program in lacking:
        if program in MISSED:
            sys.stderr.write(f"{program} is not here: {MISSED[program]}.\n")
    if "chromium" not in lacking:
        return 0
    return subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], check=False).returncode


def missing(needed: Iterable[str]) -> list[str]:
    """Return which of the programs and files of PACKAGES are not here."""
    return [one for one in needed if not _is_here(one)]


def _is_here(one: str) -> bool:
    if one.startswith("/"):
        return any(Path("/").glob(one.removeprefix("/")))
    # What is for root is not on everybody's PATH.
    return any(shutil.which(name) or shutil.which(name, path="/usr/sbin") for name in (one, ALSO.get(one)) if name)


def _by_apt(packages: list[str]) -> int:
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *packages]):
        status = subprocess.run(["apt-get", *command], env=environment, check=False).returncode  # noqa: S603, S607
        if status != 0:
            return status
    return 0


if __name__ == "__main__":
    sys.exit(main())
