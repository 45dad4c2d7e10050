"""A browser for the tests that need one: skipped where there is none, failed in CI."""

import os

import pytest

from tests.browser.lab import CHROMIUM, chromium


@pytest.fixture(scope="session")
def browser():
    if CHROMIUM is None:
        reason = "no Chromium on this machine: what an apprentice sees in the browser was not tested"
        if os.environ.get("CI"):
            pytest.fail(reason)
        pytest.skip(reason)
    with chromium() as running:
        yield running


@pytest.fixture
def page(browser, tmp_path, request):
    """An empty page; what it shows when a test fails is kept as a picture."""
    context = browser.new_context(viewport={"width": 1366, "height": 900})
    page = context.new_page()
    yield page
    if getattr(request.node, "failed", False):
        page.screenshot(path=tmp_path / "failed.png")
        print(f"what the page showed: {tmp_path / 'failed.png'}")
    context.close()


@pytest.hookimpl(hookwrapper=True)
def pytest_runtest_makereport(item, call):
    report = (yield).get_result()
    if report.when == "call" and report.failed:
        item.failed = True
