"""What every test may ask for: a database of each kind, a running server, a browser at a phone's size."""

import os
import sys
from pathlib import Path

import pytest
from hypothesis import settings

pytest_plugins = [f"tests.fixtures.{name}" for name in ("servers", "databases", "browsers", "webkit")]

# Node may have been installed beside Python.
os.environ["PATH"] = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
# A slow machine is no counter-example, and what CI refuses must be what anybody can run again.
settings.register_profile("steady", deadline=None, derandomize="CI" in os.environ)
settings.load_profile("steady")

passed = 0


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    global passed
    passed += report.when == "call" and report.passed


def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    """Where requirements are set, a run in which nothing passed is a failure, all skipped included."""
    if os.environ.get("RACKSIDE_REQUIRE") and exitstatus == 0 and not passed:
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
