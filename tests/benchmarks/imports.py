"""How long `import workbench` takes beyond a bare Python; prints one JSON line last.

Run: python tests/benchmarks/imports.py
"""

import json
import statistics
import subprocess
import sys
import time

RUNS = 25


def seconds(program: str) -> float:
    start = time.perf_counter()
    subprocess.run([sys.executable, "-c", program], check=True)
    return time.perf_counter() - start


def main() -> None:
    bare, ours = [], []
    for _ in range(RUNS):  # in turns, so that a busy machine slows both alike
        bare.append(seconds("pass"))
        ours.append(seconds("import workbench"))
    bare_ms, ours_ms = (statistics.median(times) * 1000 for times in (bare, ours))
    print(json.dumps({"imports": {"bare_ms": round(bare_ms, 1), "beyond_ms": round(ours_ms - bare_ms, 1)}}))


if __name__ == "__main__":
    main()
