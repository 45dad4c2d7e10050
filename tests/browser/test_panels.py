"""A panel in a real browser: nothing jumps, field and picture agree, a lost kernel is said."""

import time

import pytest

from tests.browser.lab import Course, Lab, Unseen

pytestmark = [pytest.mark.browser, pytest.mark.slow]

PATIENCE_S = 30  # for the answer to one move

# places of what one clicks or looks at, counted from the panel's top; what the fields and cards show
PANEL = """() => {
  const board = [...document.querySelectorAll('.wb-board')].find(each => each.offsetParent !== null);
  const top = board.getBoundingClientRect().top;
  const place = (name) => [...board.querySelectorAll(name)].map(
    each => Math.round(each.getBoundingClientRect().top - top));
  return {
    places: [place('.wb-control'), place('.wb-picture'), place('.wb-foot')],
    fields: [...board.querySelectorAll('.wb-control input[type=text]')].map(each => each.value),
    cards: board.querySelector('.wb-result').innerText,
    message: board.querySelector('.wb-message').innerText,
    open: board.querySelectorAll(':enabled:is(input, select, button)').length,
    save: board.querySelector('.wb-save').getAttribute('download'),
  };
}"""


def until(page, seen, what):
    """Look at the panel until something is seen."""
    end = time.monotonic() + PATIENCE_S
    while not seen(there := page.evaluate(PANEL)):
        if time.monotonic() > end:
            raise Unseen(f"{what}: {there}")
        time.sleep(0.1)
    return there


def type_in(page, number, text):
    field = page.locator(".wb-control input[type=text]:visible").nth(number)
    field.fill(text)
    field.press("Enter")


def test_a_panel_stands_still_and_speaks(page, tmp_path):
    """The pin touched, squeezed, passed: nothing jumps; after a restart of the kernel no control moves any more."""
    (tmp_path / "home").mkdir()
    with Course(tmp_path / "home", "--candidate", "7") as course:
        lab = Lab(page, course.address)
        lab.run_all()
        place = next(n for n, cell in enumerate(lab.look()["cells"]) if "Commit prediction" in cell["output"])
        lab.predict(place, "A")
        first = until(page, lambda there: "free" in there["cards"], "a drawn panel")

        type_in(page, 0, "2")
        type_in(page, 1, "13")
        touching = until(page, lambda there: "touching" in there["cards"], "the pin touched")
        assert touching["places"] == first["places"]
        assert touching["save"].endswith("_turns-2_divisions-13.png")

        page.locator(".wb-control input[type=text]:visible").nth(1).press("ArrowUp")  # one step, in the field
        squeezing = until(page, lambda there: "squeezing" in there["cards"], "the pin squeezed")
        assert squeezing["fields"] == ["2", "14"] and squeezing["places"] == first["places"]

        slider = page.locator(".wb-control input[type=range]:visible").nth(1)
        slider.scroll_into_view_if_needed()
        box = slider.bounding_box()
        y = box["y"] + box["height"] / 2
        page.mouse.move(box["x"] + box["width"] * 14 / 49, y)
        page.mouse.down()
        for part in range(15, 50, 3):  # a drag on to the end of the slider, far past the pin
            page.mouse.move(box["x"] + box["width"] * part / 49, y)
            there = page.evaluate(PANEL)
            assert int(there["fields"][1]) <= 16 and there["places"] == first["places"]
        page.mouse.up()
        refused = until(page, lambda there: "Too far" in there["message"], "the refusal")
        assert refused["message"].endswith("squeezing the pin.") and "squeezing" in refused["cards"]
        page.wait_for_timeout(1000)
        assert slider.input_value() == page.evaluate(PANEL)["fields"][1]

        lab.to_cell(0)  # a panel keeps its keys to itself
        lab.restart_kernel()
        lost = until(page, lambda there: "started again" in there["message"], "word of the restart")
        assert lost["message"] == "The kernel was started again: choose Run all." and lost["open"] == 0
        assert lost["fields"] == page.evaluate(PANEL)["fields"]

        lab.run_all()
        lab.predict(place, "A")
        again = until(page, lambda there: "free" in there["cards"], "a fresh panel")
        assert again["open"] > 0
