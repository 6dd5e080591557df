"""The browser of the page tests: this machine's Chromium, no network, a silent console."""

from __future__ import annotations

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as the command sets it, before numpy

import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings
from playwright.sync_api import Browser, Page, Route, sync_playwright

from site_builder import content, publish
from site_builder.process import settle

settle()  # as a command does

# The machine's load decides how long an example takes; a deadline would test the machine.
settings.register_profile("bench", deadline=None)
settings.load_profile("bench")


@pytest.hookimpl(tryfirst=True)
def pytest_cmdline_main(config: pytest.Config) -> None:
    """Run the whole suite on every core; tests that are named run in this process, at once.

    `-n` says otherwise: `-n0` for one process, `-n2` for two.
    """
    whole = config.args_source is pytest.Config.ArgsSource.TESTPATHS
    told = getattr(config.option, "numprocesses", 0)  # without pytest-xdist there is no such option
    if whole and told is None and not hasattr(config, "workerinput"):
        config.option.numprocesses = "logical"
        config.option.dist = "worksteal"


NAMES = ("chromium", "chromium-browser", "google-chrome")


@pytest.fixture(autouse=True, scope="module")
def _typesetter_that_forgets() -> Iterator[None]:
    """Take from the typesetter what a module set: a whole binder is hundreds of megabytes.

    It keeps everything until it was asked ten times more.
    """
    yield
    if "typst" in sys.modules:
        for _ in range(11):
            sys.modules["typst"].compile(b"", ignore_system_fonts=True)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start the machine's own Chromium once."""
    found = next(filter(None, map(shutil.which, NAMES)), None)
    if found is None:
        missing = "no Chromium on this machine: apt-get install chromium"
        if os.environ.get("CI") == "true":
            pytest.fail(missing)
        pytest.skip(missing)  # only on a reader's own machine: with CI it has failed above
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=found, args=["--no-sandbox"])
        yield started
        started.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """Give a page; a request that leaves the machine or a word on the console fails the test."""
    context = browser.new_context()
    context.set_offline(True)
    complaints: list[str] = []

    def only_files(route: Route) -> None:
        if route.request.url.startswith(("file:", "data:", "blob:")):
            route.continue_()
        else:
            complaints.append(f"request to {route.request.url}")
            route.abort()

    context.route("**/*", only_files)
    opened = context.new_page()
    opened.on("console", lambda message: complaints.append(f"{message.type}: {message.text}"))
    opened.on("pageerror", lambda error: complaints.append(f"error: {error}"))
    yield opened
    context.close()
    assert complaints == []


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the demo handbook once; tests read it and never write to it."""
    folder = tmp_path_factory.mktemp("built")
    publish.publish(content.CONTENT / "demo-shop", folder)
    return folder


@pytest.fixture(scope="session")
def bound(built: Path) -> object:
    """Give the binder that the build of the demo shop wrote, read back once."""
    import bound_demo

    return bound_demo.bound(built)
