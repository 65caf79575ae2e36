"""Keeps processes on a leash: none outlives the run of tests, not even one that is killed."""

import shutil


def leashed(command: list[str]) -> list[str]:
    """Return the command with which the kernel kills it once the thread that started it is gone.

    As it is where there is no setpriv (util-linux, so Linux alone).
    """
    setpriv = shutil.which("setpriv")
    return [setpriv, "--pdeathsig", "KILL", *command] if setpriv else command
