#!/usr/bin/env python3
"""How often the rule of the sheet Runs calls a run unlike the others of its still: rightly, and falsely.

    unlike_table.py [RUNS]

Invented stills of so many runs each, their stages with standard uncertainties of 0.02 to 0.04 and a spread from run to run, all
normal; then one of the runs off by so much. Seed 5. The table in tests/benchmarks/README.md is its outcome.
"""
import functools
import math
import random
import sys

from plain_record import consensus, student_quantile

CHANCE = 0.01


@functools.cache
def limit(degrees):
    return student_quantile(degrees, 1 - CHANCE / 2)


def unlike(values, uncertainties, i):
    others = [j for j in range(len(values)) if j != i]
    mean, _, spread, after = consensus([values[j] for j in others], [uncertainties[j] for j in others])
    square, seen = after ** 2 + uncertainties[i] ** 2, max(spread, uncertainties[i]) ** 2
    degrees = int((len(others) - 1) * (square / seen) ** 2)
    return abs(values[i] - mean) > limit(degrees) * math.sqrt(square)


def main(stills):
    random.seed(5)
    print("| runs of the still | spread | called unlike, of runs like the others | 0.15 off | 0.3 off |\n" + "| --- " * 5 + "|")
    for runs in (4, 6, 10, 20):
        for spread in (0, 0.03, 0.06):
            found = []
            for off in (0, 0.15, 0.3):
                hits = tried = 0
                for _ in range(stills):
                    u = [random.choice((0.02, 0.03, 0.04)) for _ in range(runs)]
                    values = [random.gauss(1.2, math.hypot(x, spread)) for x in u]
                    values[0] += off
                    which = [0] if off else range(runs)
                    hits += sum(unlike(values, u, i) for i in which)
                    tried += len(which)
                found.append(f"{100 * hits / tried:.1f} %")
            print(f"| {runs} | {spread} | {' | '.join(found)} |", flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1500)
