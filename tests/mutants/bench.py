"""A copy of the tree in which one fault at a time is put, and tests are run."""

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from node import find_node

from .table import ROOT, Mutant

COPIED = ("api", "tests", "tools", "schemas", "sample_reports", "bench", "pyproject.toml")
OF_THE_APP = (
    "src",
    "tests",
    "public",
    "package.json",
    "vite.config.ts",
    "tsconfig.json",
    "tsconfig.base.json",
    "scripts",
)
DEADLINE_S = 300
"""Against hanging alone: a fault that makes a test wait for ever is seen, too."""


@dataclass(frozen=True)
class Run:
    """How tests ended: `passed`, `failed`, or `broken` where they did not get as far as to judge anything."""

    ended: str
    said: str


class Bench:
    """A copy of the tree in `folder`."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._turns = 0
        for name in (*COPIED, *(f"pwa/{name}" for name in OF_THE_APP)):
            _copy(ROOT / name, folder / name)
        (folder / "pwa" / "node_modules").symlink_to(ROOT / "pwa" / "node_modules")

    def with_fault(self, mutant: Mutant) -> Run:
        """Run the mutant's own tests with its fault in the code, and take it out again."""
        with self.planted(mutant):
            return self.run(mutant.tests)

    @contextmanager
    def planted(self, mutant: Mutant) -> Iterator[None]:
        """Have a fault in the code for the length of the block."""
        file = self.folder / mutant.file
        text, times = file.read_text(), file.stat()
        try:
            file.write_text(mutant.applied_to(text))
            # A time of its own: compiled code is told from the source by time and size alone.
            self._turns += 1
            os.utime(file, (times.st_atime, times.st_mtime + 10 * self._turns))
            yield
        finally:
            file.write_text(text)
            os.utime(file, (times.st_atime, times.st_mtime))

    def run(self, tests: tuple[str, ...]) -> Run:
        """Run test files, of one language or of both."""
        python = [name for name in tests if name.endswith(".py")]
        script = [name.removeprefix("pwa/") for name in tests if name.endswith((".ts", ".tsx"))]
        runs = [self._pytest(python)] if python else []
        runs += [self._vitest(script)] if script else []
        worst = min(runs, key=lambda one: ("broken", "passed", "failed").index(one.ended))
        return Run(worst.ended, "\n".join(one.said for one in runs))

    def _pytest(self, tests: list[str]) -> Run:
        line = [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", "-x", "--tb=no", *tests]
        status, said = self._call(line, self.folder)
        return Run({0: "passed", 1: "failed"}.get(status, "broken"), said)

    def _vitest(self, tests: list[str]) -> Run:
        node = str(find_node())
        line = [node, "node_modules/vitest/vitest.mjs", "run", "--bail=1", "--reporter=dot", *tests]
        status, said = self._call(line, self.folder / "pwa")
        judged = "Tests " in said
        return Run("broken" if not judged else "passed" if status == 0 else "failed", said)

    def module(self, *words: object) -> Run:
        """Run a module of the copy by Python, with what it is told: `failed` where its exit status is 1."""
        status, said = self._call([sys.executable, "-m", *map(str, words)], self.folder)
        return Run({0: "passed", 1: "failed"}.get(status, "broken"), said)

    def _call(self, line: list[str], folder: Path) -> tuple[int, str]:
        environment = {**os.environ, "PYTHONPATH": str(self.folder / "api"), "NO_COLOR": "1"}
        try:
            done = subprocess.run(
                line, cwd=folder, env=environment, capture_output=True, text=True, timeout=DEADLINE_S, check=False
            )
        except subprocess.TimeoutExpired:
            return 1, "Tests did not end"
        return done.returncode, done.stdout + done.stderr

    def is_itself(self) -> bool:
        """Return whether the tests import the copy's code, and not the tree's."""
        _, said = self._call([sys.executable, "-c", "import shuntbook; print(shuntbook.__file__)"], self.folder)
        return Path(said.strip()).is_relative_to(self.folder)


def _copy(source: Path, target: Path) -> None:
    target.parent.mkdir(parents=True, exist_ok=True)
    if source.is_dir():
        shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))
    else:
        shutil.copy2(source, target)
