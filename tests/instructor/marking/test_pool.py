"""The isolated run: what a notebook's cells can do, and what a run leaves whatever they do."""

import os
import platform
import socket
import time

import pytest

from instructor.marking import pool as pool_module
from instructor.marking.limits import Limits
from instructor.marking.pool import ISOLATED, LIMITED, Pool
from instructor.marking.running import Cell
from instructor.refusal import Refusal
from tests.instructor.marking.hostile_cells import ATTACKS

LIMITS = Limits(cell_seconds=2.0, notebook_seconds=6.0, cpu_seconds=6, together_bytes=250_000_000)
HONEST = {"travel": "3.25 mm", "pin": "7.31 mm"}
linux = pytest.mark.skipif(platform.system() != "Linux", reason="namespaces are Linux's")


def answer(name, text):
    return Cell(name, f"# Answer measuring_screw.{name}\n{name} = {text}")


def notebook(*between):
    """Two honest answers with these cells between them."""
    own = [Cell(f"own-{number}", source, kept=True) for number, source in enumerate(between)]
    return [answer("travel", HONEST["travel"]), *own, answer("pin", HONEST["pin"])]


def environment(candidate=7):
    return {"WORKBENCH_CANDIDATE": str(candidate), "WORKBENCH_SERIES": "1"}


@pytest.fixture(scope="module")
def pool():
    with Pool(workers=1) as made:
        yield made


def run_one(pool, cells):
    [(_, result)] = pool.run([("one", cells, environment())])
    return result


def test_answers_come_out_as_text(pool):
    """The text typed in an answer cell is what leaves the run, by its key."""
    result = run_one(pool, notebook())
    assert result.answers == {"measuring_screw.travel": "3.25 mm", "measuring_screw.pin": "7.31 mm"}
    assert result.stopped == "" and not result.troubles


def test_an_expression_is_worked_out_in_the_run(pool):
    """An answer that uses the apprentice's own cells comes out as its value."""
    result = run_one(pool, [Cell("own", "pitch = 0.5"), answer("travel", "6.5 * pitch")])
    assert result.answers == {"measuring_screw.travel": "3.25"}


def test_nothing_is_left_for_the_next_notebook(pool):
    """A notebook finds no name, answer, file or setting of the one before."""
    run_one(pool, notebook("mine = 1\nopen('mine', 'w').close()\nimport os\nos.environ['MINE'] = '1'"))
    look = "import os\nprint('mine' in globals(), os.listdir('.'), 'MINE' in os.environ)"
    result = run_one(pool, [Cell("own", look, kept=True)])
    assert result.outputs["own"][0]["text"] == "False [] False\n"
    assert result.answers == {}


def test_results_come_whatever_the_order(pool):
    """Each of many notebooks gets its own result."""
    work = [(number, [answer("travel", f"{number} mm")], environment(number)) for number in range(1, 41)]
    results = dict(pool.run(work))
    assert {tag: run.answers["measuring_screw.travel"] for tag, run in results.items()} == {
        number: f"{number} mm" for number in range(1, 41)}


def test_own_cells_look_as_in_a_kernel(pool):
    """Printed text, the last value, a magic, a picture and an error are kept for the marked notebook."""
    result = run_one(pool, notebook(
        "print('hello')\n1 + 1", "%precision 2\n1/3", "import matplotlib.pyplot as plt\nplt.plot([1, 2]);", "1 / 0",
        "%matplotlib inline\nplt.figure(); plt.plot([2, 1])\nplt.show()"))
    kinds = {cell: [one["output_type"] for one in shown] for cell, shown in result.outputs.items()}
    assert kinds["own-0"] == ["stream", "display_data"]
    assert result.outputs["own-0"][1]["data"]["text/plain"] == "2"
    assert result.outputs["own-1"][-1]["data"]["text/plain"] == "0.33"
    assert "image/png" in result.outputs["own-2"][-1]["data"]
    assert result.outputs["own-3"][0]["ename"] == "ZeroDivisionError"
    assert "image/png" in result.outputs["own-4"][-1]["data"]


def test_only_text_and_pictures_are_kept(pool):
    """HTML and scripts of an apprentice never reach the notebook that the instructor opens."""
    result = run_one(pool, notebook("from IPython.display import HTML, Javascript, SVG, display\n"
                                    "display(HTML('<script>alert(1)</script>'), Javascript('1'))"))
    kinds = {kind for one in result.outputs["own-0"] for kind in one["data"]}
    assert kinds == {"text/plain"}


def test_many_or_large_pictures_are_left_out(pool):
    """Three pictures are kept; a further one is named and left out."""
    draw = "import matplotlib.pyplot as plt\nfor _ in range(5):\n"
    draw += "    plt.figure(figsize=(1, 1)); plt.plot([1]); plt.show()"
    shown = run_one(pool, notebook(draw)).outputs["own-0"]
    assert sum("image/png" in one["data"] for one in shown) == 3
    assert sum("left out" in one["data"]["text/plain"] for one in shown) == 2


@pytest.fixture(scope="module")
def listening():
    with socket.create_server(("127.0.0.1", 0)) as server:
        yield server.getsockname()[1]


@pytest.fixture(scope="module")
def victim(tmp_path_factory):
    """A folder with something of the cohort in it, open to everybody."""
    folder = tmp_path_factory.mktemp("cohort")
    (folder / "secret").write_text("REACHED")
    for place in (folder, *folder.parents[:3]):
        if place.stat().st_uid == os.getuid() and str(place) != "/tmp":
            place.chmod(0o777)
    return folder


def prepared(attack, victim, port):
    return attack.source.replace("{victim!r}", repr(str(victim))).replace("{port}", str(port))


@pytest.fixture(scope="module")
def attacked(victim, listening):
    """All attacks in one batch, honest notebooks between them."""
    os.environ["MARKING_TEST_SECRET"] = "1"
    work = []
    for name, attack in ATTACKS.items():
        work.append((name, notebook(prepared(attack, victim, listening)), environment()))
        work.append((f"neighbour of {name}", notebook(), environment()))
    began = time.monotonic()
    with Pool(workers=2, limits=LIMITS) as pool:
        results = dict(pool.run(work))
        protection, lost = pool.protection, pool.lost
    took = time.monotonic() - began
    time.sleep(3.5)  # what tries to outlive its notebook has had its time
    return results, protection, lost, took


@linux
@pytest.mark.parametrize("name", ATTACKS)
def test_an_attack_costs_only_itself(name, attacked, victim):
    """What was answered before an attack counts, its reason is told, and it reached nothing."""
    results, protection, lost, _ = attacked
    assert protection == ISOLATED
    assert lost == 0, "an attack reached its parent"
    attack, result = ATTACKS[name], results[name]
    assert result.answers["measuring_screw.travel"] == HONEST["travel"]
    if attack.ends:
        assert attack.ends in result.stopped
    else:
        assert result.stopped == ""
        assert result.answers["measuring_screw.pin"] == HONEST["pin"]
    if attack.trouble:
        assert attack.trouble in result.troubles["own-0"]
    assert "REACHED" not in str(result.outputs.get("own-0", ""))
    assert sorted(path.name for path in victim.iterdir()) == ["secret"]


@linux
@pytest.mark.parametrize("name", ATTACKS)
def test_an_attack_leaves_its_neighbour_alone(name, attacked):
    """The honest notebook after an attack gets its whole result."""
    neighbour = attacked[0][f"neighbour of {name}"]
    assert neighbour.stopped == ""
    assert set(neighbour.answers.values()) == set(HONEST.values())


@linux
def test_attacks_delay_the_batch_by_their_limits_only(attacked):
    """The batch takes no longer than the sum of what its notebooks may take."""
    assert attacked[3] < len(ATTACKS) * LIMITS.notebook_seconds / 2


@linux
@pytest.mark.parametrize("name", [name for name, attack in ATTACKS.items() if attack.bites])
def test_the_attack_bites_without_isolation(name, victim, listening):
    """With isolation switched off the same attack gets its way, so that the test above means something."""
    with Pool(workers=1, limits=LIMITS, isolate=False) as pool:
        result = run_one(pool, notebook(prepared(ATTACKS[name], victim, listening)))
        reached = "REACHED" in str(result.outputs.get("own-0", "")) or pool.lost
    if name == "outlive":
        time.sleep(3.5)
    left = [path for path in victim.iterdir() if path.name != "secret"]
    for path in left:
        path.unlink()
    assert reached or left


def test_without_isolation_the_run_says_so():
    """Separate limited processes are named as such, and refused where isolation is required."""
    with Pool(workers=1, limits=LIMITS, isolate=False) as pool:
        assert pool.protection.startswith(LIMITED) and not pool.isolated
        assert set(run_one(pool, notebook()).answers.values()) == set(HONEST.values())
    with pytest.raises(Refusal, match="no isolation"):
        with Pool(workers=1, limits=LIMITS, isolate=False, require_isolation=True):
            pass


@linux
def test_a_parent_that_dies_is_replaced():
    """All results come, though a warm parent is killed in the midst of its work."""
    slow = notebook("import time\ntime.sleep(0.3)")
    with Pool(workers=2, limits=LIMITS) as pool:
        results = {}
        for tag, result in pool.run((number, slow, environment()) for number in range(12)):
            results[tag] = result
            if len(results) == 2:
                pool._workers[0].process.kill()
    assert sorted(results) == list(range(12))
    assert all(set(result.answers.values()) == set(HONEST.values()) for result in results.values())




FAILING = """
import os, sys
from instructor.marking import warm
left = [3]
def fork(self):
    left[0] -= 1
    if left[0] >= 0:
        raise BlockingIOError(11, "no more processes")
    return os.fork()
warm.OpenRoom.fork = fork
warm.main(sys.argv[1:])
"""


def test_a_fork_that_fails_is_tried_again(monkeypatch):
    """Where the system refuses a fork for a while the notebook is run later, and nothing is lost."""
    monkeypatch.setattr("instructor.marking.pool.PROGRAM", ("-P", "-c", FAILING))
    with Pool(workers=1, limits=LIMITS, isolate=False) as pool:
        results = dict(pool.run((number, notebook(), environment()) for number in range(4)))
    assert sorted(results) == list(range(4))
    assert all(set(result.answers.values()) == set(HONEST.values()) for result in results.values())


NO_ROOM = """
import sys
from instructor.marking import namespaces, warm
def enter(shown, hidden=()):
    raise OSError(1, "unshare: not permitted")
namespaces.enter = enter
warm.main(sys.argv[1:])
"""


def test_where_a_room_cannot_be_entered_nothing_is_run_with_less(monkeypatch):
    """A system that refuses midway is told, with its reason; less protection is given only when asked for."""
    monkeypatch.setattr("instructor.marking.pool.PROGRAM", ("-P", "-c", NO_ROOM))
    with pytest.raises(Refusal, match="not permitted.*--without-isolation"):
        with Pool(workers=1, limits=LIMITS):
            pass
    with Pool(workers=1, limits=LIMITS, isolate=False) as pool:
        assert set(run_one(pool, notebook()).answers.values()) == set(HONEST.values())


@linux
def test_programs_may_lie_below_the_folder_for_temporary_files(tmp_path, monkeypatch):
    """A workbench that was unpacked below /tmp is seen by the cells, and is isolated as anywhere."""
    (tmp_path / "programs").mkdir(mode=0o755)
    (tmp_path / "programs" / "one").write_text("seen")
    shown = pool_module._shown
    monkeypatch.setattr(pool_module, "_shown", lambda: (*shown(), tmp_path / "programs"))
    look = f"print(open({str(tmp_path / 'programs' / 'one')!r}).read())\nopen('own', 'w').write('x')"
    with Pool(workers=1, limits=LIMITS) as pool:
        result = run_one(pool, notebook(look))
    assert pool.isolated and result.outputs["own-0"][0]["text"].startswith("seen") and not result.troubles
