"""Prints how many adversarial cases a run has tried."""

import outcome


def pytest_terminal_summary(terminalreporter):
    if outcome.counted:
        parts = ", ".join(f"{number} {kind}" for kind, number in sorted(outcome.counted.items()))
        terminalreporter.write_line(f"fuzz cases tried: {sum(outcome.counted.values())} ({parts})")
