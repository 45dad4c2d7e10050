"""Extra cells that bend what judges: the workbench, Python, the shell. What leaves the run is text all the same."""

from nbformat.v4 import new_code_cell

from tests.instructor.hostile.case import FIRST, GOAL, Case
from tests.instructor.notebooks import cell_of

FLAG, CHANGES = "calls the package's own calculation", "changes how cells are run"
KEY = "'measuring_screw.short'"

FALSE = ("import sys, types\nmine = types.ModuleType('mine')\nmine.__dict__.update(vars(sys.modules['work' 'bench']))\n"
         "mine.check = lambda key: 2\n")


def own_again(work, place):
    """Below the item that is answered with another's numbers, the own ones are put back."""
    at = work.cells.index(cell_of(work, f"{GOAL}-check")) + 1
    work.cells.insert(at, new_code_cell("os.environ['WORKBENCH_CANDIDATE'] = own", id="again"))


PATCHES = {
    "workbench.check gives full marks": Case(
        FLAG, cell="import workbench\nworkbench.check = lambda key: 2", bites="run"),
    "marking.judge gives full marks": Case(FLAG, bites="run", cell=(
        "from workbench import marking\nmarking.judge = lambda exercise, *_: "
        "marking.Verdict(exercise.key, 'right', exercise.marks, exercise.marks, '', '', '')")),
    "answering's verdict is replaced": Case(FLAG, bites="run", cell=(
        "from workbench import answering\nanswering._verdict = lambda exercise: "
        "answering.find and 2\nanswering.find = 1\nanswering.check = lambda key: 2\nimport workbench\n"
        "workbench.check = answering.check")),
    "a verdict shows other marks": Case(FLAG, bites="run", cell=(
        "from workbench.marking import Verdict\n"
        "Verdict._repr_mimebundle_ = lambda self, **_: {'text/plain': str(self.out_of)}")),
    "entry.read reads the right value": Case(FLAG, bites="run", cell=(
        "from workbench import entry, marking\n"
        "old = entry.read\n"
        "entry.read = marking.read = lambda text, kind, variant: "
        "old(RIGHT if kind is goal else text, kind, variant)\n"
        f"from workbench import exercises\ngoal = exercises.find({KEY}).answer")),
    "the exercise is told another right value": Case(FLAG, bites="run", cell=(
        f"from workbench import exercises\nobject.__setattr__(exercises.find({KEY}), 'right', lambda variant: 1.0)")),
    "every value is the same": Case(FLAG, bites="run", cell=(
        "from workbench.exercises.exercise import Quantity\nQuantity.same = lambda *_: True")),
    "the tolerance is endless": Case(FLAG, bites="run", cell=(
        "from workbench.exercises.exercise import Quantity\nQuantity.tolerance = lambda *_: 1e9")),
    "the numbers are another's": Case(bites="run", answer="PEER_RIGHT", edit=own_again, cell=(
        "import os\nown = os.environ['WORKBENCH_CANDIDATE']\nos.environ['WORKBENCH_CANDIDATE'] = 'PEER'")),
    "builtins.abs is nought": Case(CHANGES, cell="import builtins\nbuiltins.abs = lambda x: 0", bites="run"),
    "builtins.__import__ gives a workbench of its own": Case("by a detour", bites="run", cell=(
        f"import builtins\nold = __import__\n{FALSE}"
        "builtins.__import__ = lambda name, *a, **k: mine if name == 'work' 'bench' else old(name, *a, **k)")),
    "builtins.isinstance and len": Case("exit code 1", FIRST, cell=(
        "import builtins\nbuiltins.isinstance = lambda *_: True\nbuiltins.len = lambda _: 1")),
    "sys.modules holds another workbench": Case("by a detour", bites="run", cell=(
        f"{FALSE}sys.modules['work' 'bench'] = mine")),
    "input_transformers rewrite the checks": Case(CHANGES, bites="run", cell=(
        "get_ipython().input_transformers_post.append(lambda lines: ['2\\n'] if any('check' in line for line in lines)"
        " else lines)")),
    "input_transformers rewrite the answers": Case(CHANGES, cell=(
        "get_ipython().input_transformers_cleanup.insert(0, lambda lines: ['1 / 0\\n'])"), marks=FIRST),
    "get_ipython is replaced": Case(CHANGES, cell="import builtins\nbuiltins.get_ipython = get_ipython = lambda: None"),
    "the shell is replaced": Case(CHANGES, cell="get_ipython().run_cell = lambda *a, **k: 1 / 0"),
    "the shell's output is replaced": Case(CHANGES, bites="run", cell=(
        "get_ipython().displayhook.write_format_data = lambda data, md=None: "
        "get_ipython().displayhook.shown.data({'text/plain': '2'})")),
    "json is replaced": Case(cell="import json\njson.dumps = lambda *a, **k: '{}'"),
    "a result with marks is sent": Case(cell=(
        "import json, os, struct\nsaid = json.dumps({'cell': 'short', 'marks': 100, 'answers': {"
        f"{KEY}: 'full marks'}}, 'verdicts': {{{KEY}: 'right'}}}}).encode()\n"
        "os.write(3, struct.pack('!I', len(said)) + said)")),
    "a result of no length is announced": Case("without saying so", FIRST, cell=(
        "import os\nos.write(3, b'\\xff\\xff\\xff\\xff')")),
    "an entry is put in directly": Case("writes into the list of entries itself", 6, last=(
        f"from workbench import answering\nanswering._entries[{KEY}] = RIGHT")),
    "entries of no text are put in directly": Case("writes into the list of entries itself", last=(
        "from workbench import answering\nclass Sly(str):\n    def __eq__(self, other):\n        return True\n"
        f"answering._entries[{KEY}] = Sly('full marks')")),
    "ten thousand entries are put in directly": Case("more than any answers need", last=(
        "from workbench import answering\nanswering._entries.clear()\n"
        "answering._entries.update({f'x{n}': 'y' * 10_000 for n in range(10_000)})")),
    "the answers are put in another's place": Case("writes into the list of entries itself", bites="", last=(
        f"import workbench.answering as a\na._entries['../../other'] = a._entries[{KEY}]")),
}
