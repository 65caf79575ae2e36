"""Runs the `shuntbook` command: as a process of its own as people do, or its main function, which costs no start."""

import contextlib
import io
import json
import subprocess
import sys
from pathlib import Path
from typing import Any
from unittest.mock import patch

from shuntbook.cli import main

SCRIPT = Path(sys.executable).with_name("shuntbook")
Done = subprocess.CompletedProcess[str]


def run_process(*words: object, data: Path) -> Done:
    """Run the installed command as a process, on a data folder."""
    line = [str(SCRIPT), *map(str, words), "--data", str(data)]
    return subprocess.run(line, capture_output=True, text=True, timeout=300, check=False)


def run(*words: object, data: Path | None = None) -> Done:
    """Run the command's main function with its exit status and what it printed."""
    line = ["shuntbook", *map(str, words), *(["--data", str(data)] if data else [])]
    out, err, status = io.StringIO(), io.StringIO(), 0
    with patch.object(sys, "argv", line), contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            main()
        except SystemExit as leave:
            status = leave.code if isinstance(leave.code, int) else int(leave.code is not None)
    return Done(line, status, out.getvalue(), err.getvalue())


def printed(*words: object, data: Path) -> Any:
    """Return the JSON that a command printed, which must have succeeded."""
    done = run(*words, "--json", data=data)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)
