"""Starts Orca so that what it speaks goes to its output, a line each, since no synthesiser is here.

Run by the system's Python, which has Orca's modules. Orca begins only where no other of this user runs, on whatever
display, and is told that none does: here is a desk of its own.
"""

import logging
import sys
from importlib.machinery import SourceFileLoader
from importlib.util import module_from_spec, spec_from_loader

PROGRAM = "/usr/bin/orca"


def main() -> None:
    loader = SourceFileLoader("orca_program", PROGRAM)
    spec = spec_from_loader("orca_program", loader)
    assert spec is not None
    program = module_from_spec(spec)
    loader.exec_module(program)
    program.__dict__["otherOrcas"] = list
    _show_speech()
    sys.argv = [PROGRAM, *sys.argv[1:]]
    program.main()


def _show_speech() -> None:
    from orca import settings, speech

    settings.enableKeyEcho = False
    lines = logging.StreamHandler(sys.stdout)
    lines.setFormatter(logging.Formatter("%(message)s"))
    speech.log.handlers = [lines]


main()
