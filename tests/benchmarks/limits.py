"""How long the limits of 100,000 threads take in one call; prints one JSON line last.

Run: python tests/benchmarks/limits.py
"""

import json
import statistics
import time

import numpy

from workbench.tables import table
from workbench.threads.limits_metric import metric_limits

THREADS = 100_000
RUNS = 7
LIMIT_S = 1.0


def main() -> None:
    start = time.perf_counter()
    metric_limits(10, 1.5, "6g")  # reads the tables
    first_s = time.perf_counter() - start
    rows = list(table("iso_261_metric").rows.values())
    draw = numpy.random.default_rng(1).integers(0, len(rows), THREADS)
    diameter = numpy.array([row["diameter_mm"] for row in rows])[draw]
    pitch = numpy.array([row["pitch_mm"] for row in rows])[draw]
    times = {}
    for tolerance_class in ("6g", "6h", "4h"):  # given for every thread of ISO 261
        seconds = []
        for _ in range(RUNS):
            start = time.perf_counter()
            limits = metric_limits(diameter, pitch, tolerance_class)
            seconds.append(time.perf_counter() - start)
        assert limits.pitch.low.shape == (THREADS,)
        times[tolerance_class] = round(statistics.median(seconds), 4)
    print(json.dumps({"limits": {"threads": THREADS, "first_call_s": round(first_s, 4), "median_s": times,
                                 "limit_s": LIMIT_S, "holds": max(times.values()) < LIMIT_S}}))


if __name__ == "__main__":
    main()
