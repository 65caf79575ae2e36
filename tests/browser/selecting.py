"""Which tests run in the engine that was asked for; what did not run is told at the end, with its reason."""

import pytest
from engines import engine, left_out

from leaving_out import leave_out


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what is marked for another engine; skip all where the engine is not on this machine."""
    others = {item: reason for item in items if (reason := _why_not(item))}
    left_out.update(others.values())
    leave_out(config, items, others)
    if not engine().is_here():
        for item in items:
            left_out["it is not on this machine; on Debian as root, `make browser` installs it"] += 1
            item.add_marker(pytest.mark.skip(reason="the engine is not here"))


def _why_not(item: pytest.Item) -> str:
    only = item.get_closest_marker("only_in")
    return only.args[1] if only and only.args[0] != engine().name else ""


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    for reason, count in left_out.items():
        terminalreporter.write_line(f"{count} not run in {engine().name}: {reason}")
