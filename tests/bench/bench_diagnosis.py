"""How often the right fault, or pair of faults, comes first: 2,000 and 1,000 seeded cases.

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
from levelkit.diagnosis.observing import observed, seeded_case, seeded_pair, with_noise
from levelkit.diagnosis.pairs import Pairs, look_alikes_of_pair, ranked_together
from levelkit.diagnosis.ranking import look_alikes, ranked
from levelkit.diagnosis.setting import SEPARATE, SHARED
from levelkit.diagnosis.signatures import Signatures

CHOICES = {"readings and movement": ("readings", "movement"), "all checks": tuple(CHECKS)}


class Count:
    """Cases that can be told apart and those that cannot, and how they ended."""

    def __init__(self):
        self.first = self.apart = self.among = self.alike = 0
        self.claimed, self.groups = 0.0, {}

    def add(self, truth, best, others):
        self.claimed += best.chance
        if others:
            self.alike, self.among = self.alike + 1, self.among + (best.faults in (truth, *others))
            group = tuple(sorted(" and ".join(item.text for item in faults)
                                 for faults in (truth, *others)))
            self.groups[group] = self.groups.get(group, 0) + 1
        else:
            self.apart, self.first = self.apart + 1, self.first + (best.faults == truth)

    def text(self):
        return (f"{self.first} of {self.apart} that can be told apart came first "
                f"({100 * self.first / max(self.apart, 1):.2f} %); {self.alike} cannot be told "
                f"apart, in {self.among} of them one of the group came first; the ranking itself "
                f"expected {100 * self.claimed / (self.apart + self.alike):.1f} % of all")


def main(cases):
    states = list(product((SEPARATE, SHARED), (60.0, 10.0)))
    singles, pairs = {name: Count() for name in CHOICES}, Count()
    built = ranking = 0.0
    for arrangement, bar in states:
        signatures, memory = Signatures(setting(bar, arrangement=arrangement)), {}
        started = time.perf_counter()
        for checks in CHOICES.values():
            signatures.table(checks)
        both = Pairs(signatures)
        built += time.perf_counter() - started
        for seed in range(cases // len(states)):
            placed, result = seeded_case(signatures, seed)
            exact = observed(result, CHOICES["all checks"], memory)
            noisy = with_noise(exact, Random(seed))
            for name, checks in CHOICES.items():
                truth = {key: exact[key] for key in signatures.names(checks)}
                others = look_alikes(signatures, placed, truth, checks)
                singles[name].add((placed,), ranked(signatures, noisy, checks)[0],
                                  tuple((item,) for item in others))
        checks = CHOICES["readings and movement"]
        for seed in range(cases // 2 // len(states)):
            faults, result = seeded_pair(signatures, both.all, seed)
            exact = observed(result, checks)
            started = time.perf_counter()
            best = ranked_together(both, with_noise(exact, Random(seed)), checks)[0]
            ranking += time.perf_counter() - started
            pairs.add(faults, best, look_alikes_of_pair(both, faults, exact, checks))
        print(f"{arrangement}, {bar:.0f} bar: {len(signatures.suspects)} singles, "
              f"{len(both.all)} pairs", flush=True)
    for name, count in singles.items():
        print(f"singles, {name}: {count.text()}")
    print(f"pairs among singles, readings and movement: {pairs.text()}")
    print("groups of singles that all checks together cannot tell apart, at the level of the case:")
    for group, count in sorted(singles["all checks"].groups.items(), key=lambda item: -item[1]):
        print(f"  {count:4d}  " + "  |  ".join(group))
    print(f"signatures {built:.0f} s; ranking singles and pairs together "
          f"{1000 * ranking / max(pairs.apart + pairs.alike, 1):.0f} ms a case")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
