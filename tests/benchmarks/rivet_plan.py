"""How long a week of three shifts takes to plan; prints one JSON line last.

Run: python tests/benchmarks/rivet_plan.py
"""

import json
import statistics
import time

from workbench.rivets.documents import rule
from workbench.rivets.planning import Bath, habit, plan
from workbench.rivets.shifts import EXAMPLE, read_shifts

RUNS = 5
LIMIT_S = 1.0
BATHS = {"one basket": (200,), "two baskets": (200, 320), "three baskets": (130, 170, 210)}


def main() -> None:
    week = read_shifts(EXAMPLE)
    start = time.perf_counter()
    plan(week, Bath((200,)), rule("shortest", "2017"))  # loads numpy, reads the tables
    first_s = time.perf_counter() - start
    told = {}
    for name, loads in BATHS.items():
        for alloy in ("2017", "2024"):
            seconds = []
            for _ in range(RUNS):
                start = time.perf_counter()
                found = plan(week, Bath(loads), rule("shortest", alloy))
                seconds.append(time.perf_counter() - start)
            usual = habit(week, Bath(loads), rule("shortest", alloy))
            told[f"{name}, {alloy}"] = {"median_s": round(statistics.median(seconds), 4), "wasted": found.wasted,
                                        "wasted_by_habit": usual.wasted}
    slowest = max(first_s, *(one["median_s"] for one in told.values()))
    print(json.dumps({"rivet_plan": {"first_call_s": round(first_s, 4), "plans": told, "limit_s": LIMIT_S,
                                     "ratio": round(slowest / LIMIT_S, 3), "holds": slowest < LIMIT_S}}))


if __name__ == "__main__":
    main()
