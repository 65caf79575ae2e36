"""Keeps processes on a leash: none outlives the run of tests, not even one that is killed."""


def leashed(command: list[str]) -> list[str]:
    """Return the command with which the kernel kills it once the thread that started it is gone (util-linux)."""
    return ["setpriv", "--pdeathsig", "KILL", *command]
