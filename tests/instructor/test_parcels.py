import io
import os
import zipfile

import pytest

from instructor import parcels
from instructor.parcels import NotTaken, files


def zipped(**entries):
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in entries.items():
            archive.writestr(name.replace("__", "/"), content)
    return held.getvalue()


def seen(path):
    notes = []
    return [one.where for one in files(path, notes.append)], notes


def test_a_folder_gives_its_notebooks_and_passes_the_rest_over(tmp_path):
    """Only notebooks and the small files that tell whose they are come out, checkpoints never."""
    place = tmp_path / "given"
    for name in ("007/a.ipynb", "007/candidate.txt", "007/picture.png", "007/.ipynb_checkpoints/a.ipynb"):
        (place / name).parent.mkdir(parents=True, exist_ok=True)
        (place / name).write_text("x")
    assert seen(place) == (["given/007/a.ipynb", "given/007/candidate.txt"], [])


def test_zips_in_folders_and_zips_in_zips_are_opened(tmp_path):
    """Work sent as zips, and zips of zips, is found; a third level is told and passed over."""
    inner = zipped(**{"a.ipynb": "x"})
    third = zipped(**{"deep.zip": zipped(**{"deeper.zip": inner})})
    (tmp_path / "all.zip").write_bytes(zipped(**{"candidate_7.zip": inner, "b.ipynb": "y"}))
    (tmp_path / "third.zip").write_bytes(third)
    assert seen(tmp_path / "all.zip") == (["all/candidate_7/a.ipynb", "all/b.ipynb"], [])
    found, notes = seen(tmp_path / "third.zip")
    assert found == [] and "zip in a zip" in notes[0]


@pytest.mark.parametrize("name", ["../../evil.ipynb", "/etc/evil.ipynb", "C:\\evil.ipynb", "a/../../b.ipynb",
                                  "..\\evil.ipynb"])
def test_a_path_that_points_outside_a_zip_is_passed_over(tmp_path, name):
    """Path traversal is told by name; nothing of it is read or written."""
    (tmp_path / "bad.zip").write_bytes(zipped(**{name: "x", "good.ipynb": "y"}))
    found, notes = seen(tmp_path / "bad.zip")
    assert found == ["bad/good.ipynb"]
    assert "points outside" in notes[0]


def test_a_bomb_is_cut_off_at_the_limit(tmp_path, monkeypatch):
    """An entry that unpacks to more than the limit is never read whole."""
    monkeypatch.setattr(parcels, "LARGEST_FILE", 1000)
    (tmp_path / "bomb.zip").write_bytes(zipped(**{"bomb.ipynb": b"\0" * 1_000_000, "in.zip": b"\0" * 1_000_000}))
    notes = []
    (bomb,) = files(tmp_path / "bomb.zip", notes.append)
    with pytest.raises(NotTaken, match="more than"):
        bomb.read()
    assert "unpacks to more" in notes[0]


def test_a_file_larger_than_the_limit_is_not_read(tmp_path, monkeypatch):
    """A huge plain file is refused by its size."""
    monkeypatch.setattr(parcels, "LARGEST_FILE", 1000)
    (tmp_path / "a.ipynb").write_bytes(b"x" * 1001)
    (one,) = files(tmp_path, print)
    with pytest.raises(NotTaken, match="larger"):
        one.read()


def test_links_are_not_followed(tmp_path):
    """A link in handed-in work reaches nothing of the instructor's."""
    (tmp_path / "secret.ipynb").write_text("key")
    given = tmp_path / "given"
    given.mkdir()
    os.symlink(tmp_path / "secret.ipynb", given / "a.ipynb")
    os.symlink(tmp_path, given / "loop")
    found, notes = seen(given)
    assert found == [] and "link" in notes[0]


def test_broken_locked_and_unpackable_zips_are_told(tmp_path):
    """A damaged zip stops nothing and names itself."""
    whole = zipped(**{"a.ipynb": "hello" * 100})
    (tmp_path / "cut.zip").write_bytes(whole[: len(whole) // 2])
    damaged = bytearray(whole)
    damaged[40:60] = b"\xff" * 20
    (tmp_path / "damaged.zip").write_bytes(bytes(damaged))
    notes = []
    found = list(files(tmp_path, notes.append))
    assert any("cut.zip: cannot be opened" in note for note in notes)
    for one in found:
        with pytest.raises(NotTaken, match="cannot be unpacked"):
            one.read()


def test_what_does_not_exist_is_told(tmp_path):
    """A wrong path is answered, not raised."""
    assert seen(tmp_path / "nothing") == ([], [f"{tmp_path / 'nothing'}: there is no such folder or zip"])
