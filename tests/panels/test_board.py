"""The board: locked until a prediction, refusals with a reason, faults that nobody can overlook."""

import pytest

from workbench.panels.board import Board, Control, Pick, Refused, Shown, Words


def board(moved=None, read=str.strip):
    def plain(values, prediction):
        return Shown(b"png", "a picture", (("Turned", f"{values['turns']:g}"), ("You said", prediction)))

    return Board("Title", "Question?", "Prediction", (Control("turns", "Turns", "turns", 0, 10, 0.5, 2),),
                 read, moved or plain)


def test_locked_board_draws_nothing():
    """Before the prediction no move is made, nothing is drawn, and the control stays where it was."""
    calls = []
    panel = board(lambda values, prediction: calls.append(values))
    panel.values = {"turns": 5}
    assert (panel.values, panel.locked, panel.picture, calls) == ({"turns": 2}, True, b"", [])


def test_commit_unlocks_and_shows_prediction_beside_result():
    """A committed prediction unlocks the board, draws, and stands in the result."""
    panel = board()
    panel.commit(" 3 turns ")
    assert (panel.locked, panel.picture, panel.alternative) == (False, b"png", "a picture")
    assert panel.result == [["Turned", "2"], ["You said", "3 turns"]]


def test_prediction_cannot_be_changed_afterwards():
    """A second prediction does not replace the first."""
    panel = board()
    panel.commit("3")
    panel.commit("4")
    assert panel.prediction == "3" and "stands" in panel.message


def test_unread_prediction_keeps_it_locked():
    """A prediction that cannot be read is handed back with its reason, and is no fault of the panel."""
    def read(text):
        raise ValueError("no number is found")

    panel = board(read=read)
    panel.commit("???")
    assert (panel.locked, panel.message, panel.fault) == (True, "no number is found", "")


def test_move_changes_result():
    """A moved control is shown at once."""
    panel = board()
    panel.commit("3")
    panel.values = {"turns": 7.5}
    assert panel.result[0] == ["Turned", "7.5"]
    assert panel.held == {"turns": 7.5}  # what the field shows


@pytest.mark.parametrize(
    ("typed", "reason"),
    [("11", "goes from 0 to 10"), ("-1", "goes from"), ("-−1", "no number"), ("many", "no number"), ("", "no number"),
     ("nan", "out of range"), ("1e999", "out of range"), ("2.3", "between two steps"), ("9" * 10_000_000, "range")],
)
def test_bad_entry_is_refused_not_bent(typed, reason):
    """An entry out of range, between steps or unreadable changes nothing and is told why, in a line."""
    panel = board()
    panel.commit("3")
    panel.type_in("turns", typed)
    assert panel.values == {"turns": 2} and reason in panel.message and len(panel.message) < 200
    assert not panel.fault


@pytest.mark.parametrize("typed", ["2,5", " 2.5 ", "+2.5"])
def test_decimal_comma_is_read(typed):
    """A decimal comma, blanks or a plus sign are as good as a point."""
    panel = board()
    panel.commit("3")
    panel.type_in("turns", typed)
    assert panel.values == {"turns": 2.5} and panel.message == ""


def test_value_out_of_range_from_the_browser_is_refused():
    """Even a value that never came from the slider is checked before it is used."""
    panel = board()
    panel.commit("3")
    panel.values = {"turns": 99}
    assert panel.values == {"turns": 2} and "goes from" in panel.message


def test_refused_move_goes_back_and_says_why():
    """A move that the panel refuses leaves control and picture as they were."""
    def moved(values, prediction):
        if values["turns"] > 5:
            raise Refused("the nut ends at 5")
        return Shown(b"png", "", (("Turned", f"{values['turns']:g}"),))

    panel = board(moved)
    panel.commit("3")
    panel.values = {"turns": 6}
    assert panel.values == {"turns": 2} and panel.message == "the nut ends at 5"
    assert panel.result == [["Turned", "2"]] and not panel.fault
    assert panel.held == {"turns": 2}
    panel.type_in("turns", "2")
    assert panel.message == ""


@pytest.mark.parametrize("error", [ZeroDivisionError("boom"), ValueError("boom"), KeyError("boom")])
def test_fault_is_recorded_and_told(error):
    """What breaks while moving stands in `fault` with its traceback, and the reader is told it is not their entry."""
    def moved(values, prediction):
        if values["turns"] > 2:
            raise error
        return Shown(b"png", "", ())

    panel = board(moved)
    panel.commit("3")
    assert not panel.fault
    panel.values = {"turns": 3}
    assert "boom" in panel.fault and type(error).__name__ in panel.fault and "not your entry" in panel.message
    assert "fault" in panel.get_state()  # so it is in the saved widget state


def test_reset_locks_again():
    """Start again: as new."""
    panel = board()
    panel.commit("3")
    panel.values = {"turns": 8}
    panel.reset()
    new = board()
    for trait in ("locked", "prediction", "picture", "alternative", "result", "message", "why", "values", "held",
                  "fault"):
        assert getattr(panel, trait) == getattr(new, trait), trait


def test_messages_from_the_browser():
    """The three things that a browser may ask for: commit, type, reset."""
    panel = board()
    panel._handle_custom_msg({"do": "commit", "text": "3"}, [])
    panel._handle_custom_msg({"do": "type", "name": "turns", "text": "4"}, [])
    assert panel.result[0] == ["Turned", "4"]
    panel._handle_custom_msg({"do": "type", "name": "no such control", "text": "4"}, [])
    assert "KeyError" in panel.fault
    panel._handle_custom_msg({"do": "reset"}, [])
    assert panel.locked


def test_still_for_readers_without_a_kernel():
    """The output holds an HTML still with the question, safe against its own text, beside the live view."""
    data = Board("A < B", "Is 1 < 2?", "?", (), str, None)._repr_mimebundle_()
    data = data[0] if isinstance(data, tuple) else data
    assert "A &lt; B" in data["text/html"] and "Is 1 &lt; 2?" in data["text/html"]
    assert "application/vnd.jupyter.widget-view+json" in data


def test_five_controls_are_too_many():
    """A board has at most four controls."""
    controls = [Control(f"c{n}", "C", "mm", 0, 1, 1, 0) for n in range(5)]
    with pytest.raises(ValueError, match="at most 4"):
        Board("T", "Q", "P", controls, str, None)


@pytest.fixture
def worded():
    panel = Board("Title", "Question?", "Prediction",
                  (Pick("form", "Form", ("square", "metric 60°"), "square"), Words("text", "Call-out", "M6")),
                  str.strip, lambda values, prediction: Shown(b"png", "", tuple(values.items())))
    panel.commit("3")
    return panel


def test_a_list_takes_its_names_only(worded):
    """A name of the list is taken whatever its capitals; any other is refused with the list."""
    worded.type_in("form", " Metric 60° ")
    assert worded.values["form"] == "metric 60°"
    worded.type_in("form", "round")
    assert worded.values["form"] == "metric 60°" and "square, metric 60°" in worded.message
    worded.values = {"form": 7, "text": "M6"}
    assert worded.values["form"] == "metric 60°" and not worded.fault


def test_a_field_for_words_takes_them_as_typed(worded):
    """Words reach the panel as typed; a flood is refused in a line."""
    worded.type_in("text", "M10 × 1.25")
    assert worded.values["text"] == "M10 × 1.25"
    worded.type_in("text", "M" * 100_000)
    assert worded.values["text"] == "M10 × 1.25" and len(worded.message) < 100


def test_still_says_what_lists_and_fields_hold(worded):
    """Readers without a kernel see the list and an example of the words."""
    data = worded._repr_mimebundle_()
    data = data[0] if isinstance(data, tuple) else data
    assert "square, metric 60°" in data["text/html"] and "as M6" in data["text/html"]
