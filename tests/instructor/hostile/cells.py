"""Extra cells that break, flood, outlast or escape a run."""

from tests.instructor.hostile.case import FIRST, Case

SPIN = "def spin(*_):\n    while True:\n        pass\n"
UNTIMED = "import os, signal, time\nsignal.pthread_sigmask(signal.SIG_BLOCK, [signal.SIGALRM])\n"
NO_FILE = "FileNotFoundError"

TIME = {
    "endless loop": Case("TimeoutError: the cell took more than", cell="while True:\n    pass"),
    "endless loop that swallows every error": Case(
        "its cells took more than", FIRST,
        cell="while True:\n    try:\n        while True:\n            pass\n    except BaseException:\n        pass"),
    "endless loop in a thread": Case(cell=f"import threading\n{SPIN}threading.Thread(target=spin).start()"),
    "endless loop in __del__": Case(cell=f"class Spin:\n    pass\n{SPIN}Spin.__del__ = spin\nheld = Spin()"),
    "endless loop in __del__, let go": Case(
        cell=f"class Spin:\n    pass\n{SPIN}Spin.__del__ = spin\nheld = Spin()\ndel held"),
    "endless loop in atexit": Case(cell=f"import atexit\n{SPIN}atexit.register(spin)"),
    "endless sleep": Case("TimeoutError: the cell took more than", cell="import time\ntime.sleep(10_000)"),
    "alarm ignored": Case("its cells took more than", FIRST, cell=(
        f"import signal\n{SPIN}signal.signal(signal.SIGALRM, signal.SIG_IGN)\nspin()")),
    "signals blocked": Case("its cells took more than", FIRST, cell=(
        f"import signal\n{SPIN}signal.pthread_sigmask(signal.SIG_BLOCK, range(1, 64))\nspin()")),
    "signal handlers replaced": Case("its cells took more than", FIRST, cell=(
        f"import signal\n{SPIN}for one in (1, 2, 3, 14, 15):\n    signal.signal(one, lambda *_: None)\nspin()")),
    "endless regular expression": Case(
        "TimeoutError: the cell took more than", cell="import re\nre.fullmatch('(a|aa)+b', 'a' * 200)"),
    "endless loop when a module is loaded": Case("took more than", cell=(
        "import sys\nopen('endless.py', 'w').write('while True: pass')\nsys.path.insert(0, '.')\nimport endless")),
}

SIZE = {
    "memory bomb": Case("MemoryError", cell="held = bytearray(10**10)"),
    "memory bomb by small steps": Case("MB of memory", FIRST, cell=(
        f"{UNTIMED}held = [bytearray(b'x' * 10**6) for _ in range(400)]\ntime.sleep(1000)")),
    "memory bomb in many processes": Case("MB of memory", FIRST, cell=(
        f"{UNTIMED}for _ in range(4):\n    if os.fork() == 0:\n        held = bytearray(b'x') * 150_000_000\n"
        "        time.sleep(1000)\ntime.sleep(1000)")),
    "fork bomb": Case("BlockingIOError", cell="import os\nwhile True:\n    os.fork()"),
    "thread bomb": Case("RuntimeError", cell=(
        "import threading, time\nwhile True:\n"
        "    threading.Thread(target=time.sleep, args=(1000,), daemon=True).start()")),
    "output flood": Case("took more than", cell="while True:\n    print('x' * 10_000)"),
    "output flood below Python": Case(cell="import os\nfor _ in range(1000):\n    os.write(1, b'x' * 10**6)"),
    "flood of pictures": Case(cell=(
        "from IPython.display import display\nfor _ in range(2000):\n"
        "    display({'image/png': 'x' * 100_000}, raw=True)")),
    "flood of the result": Case("more than any answers need", FIRST, cell=(
        "import os\nwhile True:\n    os.write(3, b'x' * 10**6)")),
    "full disk": Case("OSError", cell="for n in range(100):\n    open(f'f{n}', 'wb').write(b'x' * 1_000_000)"),
    "many files": Case("OSError", cell="for n in range(100_000):\n    open(f'f{n}', 'w').close()"),
    "deep recursion": Case("RecursionError", cell="def f(n):\n    return f(n + 1)\nf(0)"),
    "changed recursion limit": Case("ended early", FIRST, cell=(
        "import sys\nsys.setrecursionlimit(10**9)\ndef f():\n    return f()\nf()")),
    "recursion limit of nothing": Case("", cell="import sys\nsys.setrecursionlimit(60)"),
    "huge integer": Case("took more than", cell="x = 10 ** (10 ** 9)"),
    "huge integer written out": Case("ValueError", cell="print(10 ** 10_000)"),
    "stack overflow in C": Case("SIGSEGV", FIRST, cell="x = ()\nfor _ in range(300_000):\n    x = (x,)\nhash(x)"),
    "read at no address": Case("SIGSEGV", FIRST, cell="import ctypes\nctypes.string_at(0)"),
}

END = {
    "os._exit": Case("it ended without saying so", FIRST, cell="import os\nos._exit(0)"),
    "os._exit with a code": Case("exit code 3", FIRST, cell="import os\nos._exit(3)"),
    "sys.exit": Case("SystemExit", cell="import sys\nsys.exit(0)"),
    "exit": Case("asked the session to end", FIRST, cell="exit()"),
    "abort": Case("ended by itself (signal", FIRST, cell="import os\nos.abort()"),
    "input": Case("EOFError", cell="name = input('who? ')"),
    "error that cannot be shown": Case("cannot be shown", cell=(
        "class Sly(Exception):\n    def __str__(self):\n        raise ValueError\nraise Sly")),
    "kill -9 of the parent": Case(cell="import os\nos.kill(os.getppid(), 9)", bites="isolation"),
    "kill -9 of all": Case("ProcessLookupError", cell="import os\nos.kill(-1, 9)"),
    "kill -9 of every number": Case(cell=(
        "import os\nfor pid in range(2, 40_000):\n    try:\n        os.kill(pid, 9)\n        print(WORD)\n"
        "    except OSError:\n        pass")),
    "descriptors closed": Case("exit code 1", FIRST, cell="import os\nos.closerange(0, 1000)"),
    "outlives its notebook": Case(bites="isolation", cell=(
        "import os, time\nif os.fork() == 0:\n    os.setsid()\n    time.sleep(1.5)\n"
        "    open(OUTSIDE + '/outlived', 'w').close()\n    os._exit(0)")),
}

REACH = {
    "reads another's work": Case(NO_FILE, cell="import glob\nopen(OTHER).read()\nprint(WORD)", bites="isolation"),
    "reads the lesson with its solutions": Case(
        NO_FILE, cell="open(COHORT + '/source/measuring_screw/measuring_screw.ipynb').read()\nprint(WORD)",
        bites="isolation"),
    "reads the gradebook": Case("OperationalError", bites="isolation", cell=(
        "import sqlite3\nbook = sqlite3.connect('file:' + COHORT + '/gradebook.db?mode=ro', uri=True)\n"
        "print(WORD, book.execute('select count(*) from grade').fetchone())")),
    "reads the roll": Case(NO_FILE, cell="print(WORD, open(COHORT + '/roll.csv').read())", bites="isolation"),
    "reads the environment of others": Case(NO_FILE, bites="isolation", cell=(
        "import os\nprint(WORD, open(f'/proc/{os.getppid()}/environ', 'rb').read())")),
    "reads the environment": Case(cell="import os\nif 'HOSTILE_SECRET' in os.environ:\n    print(WORD)"),
    "reads the memory of the parent": Case(NO_FILE, bites="isolation", cell=(
        "import os\nprint(WORD, open(f'/proc/{os.getppid()}/maps').read()[:100])")),
    "writes outside": Case("Error", bites="isolation", cell=(
        "open(OUTSIDE + '/written', 'w').write('x')\nprint(WORD)")),
    "writes into the cohort": Case(NO_FILE, bites="isolation", cell=(
        "open(COHORT + '/planted', 'w').write('x')\nprint(WORD)")),
    "overwrites another's work": Case(NO_FILE, bites="isolation", cell=(
        "open(OTHER, 'r+').write(' ')\nprint(WORD)")),
    "leaves a link to outside": Case("Error", bites="isolation", cell=(
        "import os\nos.symlink(OUTSIDE, 'link')\nopen('link/written', 'w').close()\nprint(WORD)")),
    "changes the workbench on the disk": Case("Error", cell=(
        "import workbench.marking as m\nopen(m.__file__, 'a').write('#')\nprint(WORD)")),
    "network": Case("OSError", bites="isolation", cell=(
        "import socket\nsocket.create_connection(('127.0.0.1', PORT), timeout=1)\nprint(WORD)")),
    "names of hosts": Case("gaierror", cell="import socket\nsocket.getaddrinfo('localhost.example', 80)\nprint(WORD)"),
    "device files": Case("Error", cell=(
        "import os, stat\nos.mknod('zero', 0o600 | stat.S_IFCHR, os.makedev(1, 5))\nprint(WORD)")),
    "new namespaces": Case(cell="import ctypes\nif ctypes.CDLL(None).unshare(0x10000000) == 0:\n    print(WORD)"),
    "sees processes": Case(NO_FILE, bites="isolation", cell=(
        "import os\nif sum(name.isdigit() for name in os.listdir('/proc')) > 3:\n    print(WORD)")),
}

CELLS = TIME | SIZE | END | REACH
