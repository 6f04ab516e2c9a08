"""How often a single fault comes first among all suspects: 2,000 seeded cases with noise.

Run: python tests/bench/bench_diagnosis.py [cases]
"""

import sys
import time
from itertools import product
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "diagnosis"))

from bench_states import setting

from levelkit.diagnosis.checks import CHECKS
from levelkit.diagnosis.ranking import (
    Signatures,
    look_alikes,
    observed,
    ranked,
    seeded_case,
    with_noise,
)
from levelkit.diagnosis.setting import SEPARATE, SHARED

ON_ARRIVAL = ("readings", "movement")
ALL = tuple(CHECKS)


def main(cases):
    states = list(product((SEPARATE, SHARED), (60.0, 10.0)))
    totals = {"all checks": [0, 0, 0, 0], "readings and movement": [0, 0, 0, 0]}
    unlike, started = {}, time.perf_counter()
    for arrangement, bar in states:
        signatures, memory = Signatures(setting(bar, arrangement=arrangement)), {}
        for seed in range(cases // len(states)):
            placed, result = seeded_case(signatures, seed)
            exact = observed(result, ALL, memory)
            noisy = with_noise(exact, Random(seed))
            for label, checks in (("all checks", ALL), ("readings and movement", ON_ARRIVAL)):
                names = [name for check in checks for name in signatures.expected(placed, check)[0]]
                truth = {name: exact[name] for name in names}
                best = ranked(signatures, noisy, checks)[0].placed
                others = look_alikes(signatures, placed, truth, checks)
                count = totals[label]
                if others:
                    count[3] += 1
                    count[2] += best in (placed, *others)
                    if label == "all checks":
                        group = tuple(sorted({placed.text, *(item.text for item in others)}))
                        unlike[group] = unlike.get(group, 0) + 1
                else:
                    count[1] += 1
                    count[0] += best == placed
    for label, (first, apart, among, alike) in totals.items():
        print(f"{label}: {first} of {apart} that can be told apart came first "
              f"({100 * first / max(apart, 1):.2f} %); {alike} cannot be told apart, in {among} "
              "of them one of the group came first")
    print("groups that all checks together cannot tell apart, at the level of the case:")
    for group, count in sorted(unlike.items(), key=lambda item: -item[1]):
        print(f"  {count:4d}  " + "  |  ".join(group))
    print(f"{time.perf_counter() - started:.0f} s")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
