"""Cells that attack or break a run, each with what must be said of it. `victim` stands for a path to get at."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Attack:
    """source: the cell. ends: the whole run ends there (its reason); else only the cell's own trouble, or "".

    bites: without isolation it gets its way, shown by the word that it then prints.
    """

    source: str
    ends: str = ""
    trouble: str = ""
    bites: bool = False


ATTACKS = {
    "loop": Attack("while True:\n    pass", trouble="took more than"),
    "loop that swallows": Attack("while True:\n    try:\n        while True:\n            pass\n"
                                 "    except BaseException:\n        pass", ends="took more than"),
    "loop in a thread": Attack("import threading\ndef spin():\n    while True:\n        pass\n"
                               "threading.Thread(target=spin).start()"),
    "loop in atexit": Attack("import atexit\ndef spin():\n    while True:\n        pass\natexit.register(spin)"),
    "loop in __del__": Attack("class Spin:\n    def __del__(self):\n        while True:\n            pass\n"
                              "spin = Spin()"),
    "sleep": Attack("import time\ntime.sleep(1000)", trouble="took more than"),
    "alarm taken away": Attack("import signal\nsignal.signal(signal.SIGALRM, signal.SIG_IGN)\nwhile True:\n    pass",
                               ends="took more than"),
    "memory bomb": Attack("held = bytearray(10**10)", trouble="MemoryError"),
    "memory in many processes": Attack(
        "import os, time\nfor _ in range(4):\n    if os.fork() == 0:\n        held = bytearray(b'x') * 150_000_000\n"
        "        time.sleep(1000)\ntime.sleep(1000)", ends="MB of memory"),
    "fork bomb": Attack("import os\nwhile True:\n    os.fork()", trouble="BlockingIOError"),
    "thread bomb": Attack("import threading, time\nwhile True:\n"
                          "    threading.Thread(target=time.sleep, args=(1000,), daemon=True).start()",
                          trouble="RuntimeError"),
    "os._exit": Attack("import os\nos._exit(0)", ends="ended without saying so"),
    "os._exit with a code": Attack("import os\nos._exit(3)", ends="exit code 3"),
    "sys.exit": Attack("import sys\nsys.exit(0)", trouble="SystemExit"),
    "exit": Attack("exit()", ends="asked the session to end"),
    "abort": Attack("import os\nos.abort()", ends="ended by itself (signal"),
    "kill the parent": Attack("import os, signal\nos.kill(os.getppid(), signal.SIGKILL)", bites=True),
    "kill the group": Attack("import os, signal\nsignal.signal(signal.SIGTERM, signal.SIG_IGN)\n"
                             "os.kill(0, signal.SIGTERM)\nos.kill(0, signal.SIGKILL)"),
    "kill the session": Attack("import os, signal\nfor pid in range(2, 40000):\n    try:\n"
                               "        os.kill(pid, signal.SIGKILL)\n        print('REACHED')\n"
                               "    except OSError:\n        pass"),
    "kill everybody": Attack("import os, signal\nos.kill(-1, signal.SIGKILL)", trouble="ProcessLookupError"),
    "input": Attack("name = input('who? ')", trouble="EOFError"),
    "output flood": Attack("while True:\n    print('x' * 10_000)", trouble="took more than"),
    "output flood below Python": Attack("import os\nfor _ in range(10**4):\n    os.write(1, b'x' * 10**6)"),
    "result flood": Attack("import os\nwhile True:\n    os.write(3, b'x' * 10**6)", ends="more than"),
    "result forged": Attack("import os\nos.write(3, b'\\xff\\xff\\xff\\xff')", ends="without saying so"),
    "deep recursion": Attack("def f(n):\n    return f(n + 1)\nf(0)", trouble="RecursionError"),
    "stack overflow in C": Attack("x = ()\nfor _ in range(200_000):\n    x = (x,)\nhash(x)", ends="SIGSEGV"),
    "endless frames": Attack("import sys\nsys.setrecursionlimit(10**9)\ndef f():\n    return f()\nf()",
                             ends="MB of memory"),
    "huge integer": Attack("x = 10 ** (10 ** 9)", trouble="took more than"),
    "write outside": Attack("open({victim!r} + '/written', 'w').write('REACHED')\nprint('REACHED')",
                            trouble="Error", bites=True),
    "read the cohort": Attack("print(open({victim!r} + '/secret').read())", trouble="Error", bites=True),
    "see processes": Attack("import os\nif sum(name.isdigit() for name in os.listdir('/proc')) > 3:\n"
                            "    print('REACHED')",
                            trouble="FileNotFoundError", bites=True),
    "network": Attack("import socket\nsocket.create_connection(('127.0.0.1', {port}), timeout=1)\nprint('REACHED')",
                      trouble="OSError", bites=True),
    "fill the folder": Attack("for n in range(100):\n    open(f'f{n}', 'wb').write(b'x' * 1_000_000)",
                              trouble="OSError"),
    "one large file": Attack("import signal\nsignal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
                             "open('f', 'wb').write(b'x' * 10_000_000)", trouble="OSError"),
    "new namespaces": Attack("import ctypes\n"
                             "print('REACHED' if ctypes.CDLL(None).unshare(0x10000000) == 0 else 1)"),
    "mount": Attack("import ctypes\nprint('REACHED' if ctypes.CDLL(None).mount(b'tmpfs', b'/tmp', b'tmpfs', 0, 0) == 0 "
                    "else 1)"),
    "outlive": Attack("import os\nif os.fork() == 0:\n    os.setsid()\n    import time\n    time.sleep(3)\n"
                      "    open({victim!r} + '/outlived', 'w')\n    os._exit(0)", bites=True),
    "environment": Attack("import os\nprint('REACHED' if 'MARKING_TEST_SECRET' in os.environ else 1)"),
    "patched shell": Attack("get_ipython().run_cell = lambda *a, **k: 1 / 0", trouble=""),
    "closed descriptors": Attack("import os\nos.closerange(0, 1000)", ends="exit code 1"),
    "patched json": Attack("import json\njson.dumps = lambda *a, **k: 'x' * 100", ends=""),
    "hostile error": Attack("class E(Exception):\n    def __str__(self):\n        raise ValueError\nraise E",
                            trouble="cannot be shown"),
}
