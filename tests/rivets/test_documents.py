"""Documents: the safer is the default, and which is safer depends on the use; a shop's own file is read alike."""

import doctest

import pytest

from workbench.rivets import documents
from workbench.rivets.documents import Rule, disagreements, own_rules, rule, rules_of, safest

OWN = """\
# source: the bay's own sheet 4 (invented)
document,alloy,drive_within_min,store_at_most_degc,cold_for_h,retreatments,load_after_h,says
bay,2024,15,-18,48,3,,tin by tin
bay,2017,25,,,,240,
"""


def test_examples_run():
    """The examples in the docstrings give what they print."""
    failed, tried = doctest.testmod(documents)
    assert tried and not failed


def test_to_drive_the_shorter_and_to_load_the_later():
    """2017: 60 and 20 min to drive give 20; 96 h and 9 days to load give 9 days (see the sources in the table)."""
    one = rule("shortest", "2017")
    assert (one.drive_within_min, one.load_after_h) == (20, 216)


def test_the_safest_of_all_is_no_longer_than_any_and_no_earlier_to_load():
    """Whatever documents there are, the default is inside each of them."""
    for alloy in ("2017", "2024"):
        one = rule("shortest", alloy)
        for other in rules_of(alloy):
            for name in ("drive_within_min", "cold_for_h", "store_at_most_degc", "retreatments"):
                mine, theirs = getattr(one, name), getattr(other, name)
                assert theirs is None or mine <= theirs
            assert other.load_after_h is None or one.load_after_h >= other.load_after_h


def test_what_no_document_prints_stays_open():
    """No document here prints when a joint of 2024 may be loaded: no figure is made up."""
    assert rule("shortest", "2024").load_after_h is None


def test_documents_that_differ_are_shown_side_by_side():
    """2017 to drive: 60, 60, 20, 30 min; to load: 216 and 96 h; what agrees is not listed."""
    found = disagreements("2017")
    assert found["drive_within_min"] == {"handbook": 60, "handbook older passage": 60, "navy": 20, "transactions": 30}
    assert found["load_after_h"] == {"handbook": 216, "handbook older passage": 96, "transactions": 96, "air force": 96}
    assert "store_at_most_degc" not in found


def test_a_shop_adds_its_own_document(tmp_path):
    """A CSV with a source is read; an empty cell stays no figure; it stands beside no other document."""
    path = tmp_path / "own.csv"
    path.write_text(OWN)
    rules = own_rules(path)
    assert rule("bay", "2024", rules) == Rule("bay", "2024", 15, -18, 48, 3, None, "tin by tin")
    assert rule("shortest", "2017", rules).drive_within_min == 25
    assert rule("shortest", "2017", rules).document == "bay"


@pytest.mark.parametrize(("old", "new", "said"), [
    ("# source: the bay's own sheet 4 (invented)\n", "", "must say where its figures come from"),
    ("# source: the bay's own sheet 4 (invented)", "# source:  ", "must say where"),
    ("cold_for_h,", "", "lacks cold_for_h"),
    ("bay,2024,15,", "bay,2024,soon,", "must be a number or empty"),
    ("bay,2024,15,", "bay,2024,-15,", "of at least 0"),
    ("bay,2024,15,", "bay,2024,inf,", "must be a number of at least 0"),
    ("15,-18,48", "15,,48", "needs the store's temperature"),
])
def test_a_shop_file_with_a_fault_is_refused(tmp_path, old, new, said):
    """No source, a lost column, a word for a figure, a store without temperature: each refused with its reason."""
    path = tmp_path / "own.csv"
    path.write_text(OWN.replace(old, new))
    with pytest.raises(ValueError, match=said):
        own_rules(path)


def test_no_re_treatment_at_all_is_a_figure(tmp_path):
    """0 re-treatments permitted is read as 0, not as no figure; the source may stand on any line with #."""
    path = tmp_path / "own.csv"
    path.write_text("# our bay\n" + OWN.replace(",48,3,", ",48,0,"))
    assert rule("bay", "2024", own_rules(path)).retreatments == 0


def test_alloys_that_need_no_heat_say_so():
    """2117 is driven as received (FAA-H-8083-30): asking for its limit is refused with that reason."""
    with pytest.raises(ValueError, match="driven as received"):
        rules_of("2117")
    with pytest.raises(ValueError, match="no document here speaks of it"):
        rules_of("2219")
    with pytest.raises(ValueError, match="says nothing of 2024; known are shortest, handbook"):
        rule("air force", "2024")


def test_the_safest_of_one_rule_is_that_rule():
    """Nothing is lost or added where only one document speaks."""
    one = Rule("bay", "2024", 15, -18, 48, 3, 240)
    assert safest([one]) == one
