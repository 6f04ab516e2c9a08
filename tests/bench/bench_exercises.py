"""10,000 questions made, answered and marked in one process: time, and that it grows in line.

Every family of the bank in turn; each question is answered with one slip, one right value
in another unit and the rest right, so that marking takes its long way too. The time of
10,000 is compared with ten times that of 1,000, in the same process.
Run: python tests/bench/bench_exercises.py
"""

import sys
import time

from levelkit.exercises import families, mark, variant
from levelkit.exercises.family import CHOICE

FEW, MANY, AIM_MS, LINEAR = 1_000, 10_000, 1.5, 1.25


def typed_answers(one):
    """What a middling candidate types: one slip where there is one, the rest right."""
    answers, slipped = {}, False
    for step in one.family.asked_steps:
        value = one.solution.steps[step.id]
        slips = [slip for slip in one.family.slips if slip.step == step.id]
        if step.kind == CHOICE:
            answers[step.id] = value
        elif slips and not slipped:
            slipped = True
            wrong = step.si.from_si(one.solution.slips[slips[0].id])
            answers[step.id] = f"{wrong:.6g} {'' if step.unit == '1' else step.unit}"
        else:
            answers[step.id] = one.answer(step.id).replace(",", " ")
    return answers


def made_and_marked(count, sheet):
    """Seconds for making and for marking, marks earned, and how many different questions."""
    names, making, marking, marks, texts = list(families()), 0.0, 0.0, 0, set()
    for number in range(count):
        start = time.perf_counter()
        one = variant(names[number % len(names)], "bench", sheet, number)
        texts.add(one.text)
        middle = time.perf_counter()
        answers = typed_answers(one)
        begin = time.perf_counter()
        marks += mark(one, answers).marks
        marking += time.perf_counter() - begin
        making += middle - start
    return making, marking, marks, len(texts)


def slowest_families(count=60):
    """The three families that take longest to make, in ms a question."""
    times = []
    for name in families():
        start = time.perf_counter()
        for number in range(count):
            variant(name, "slow", number)
        times.append((1e3 * (time.perf_counter() - start) / count, name))
    return sorted(times, reverse=True)[:3]


def main():
    """Print times and ratios; return 0 if both aims are met."""
    made_and_marked(2 * len(families()), "warm-up")
    results = {}
    print(f"{'questions':>9} {'made, s':>8} {'marked, s':>9} {'ms each':>8} {'different':>9}")
    for count in (FEW, MANY):
        making, marking, _, different = made_and_marked(count, f"sheet {count}")
        results[count] = making + marking
        print(f"{count:>9} {making:>8.2f} {marking:>9.2f} "
              f"{1e3 * (making + marking) / count:>8.3f} {different:>9}")
    growth = results[MANY] / results[FEW] / (MANY / FEW)
    each = 1e3 * results[MANY] / MANY
    print(f"growth against a straight line: {growth:.2f} (aim <= {LINEAR})")
    print(f"each question made and marked: {each:.3f} ms (aim < {AIM_MS})")
    print("slowest to make: " + ", ".join(f"{name} {ms:.2f} ms" for ms, name in slowest_families()))
    return 0 if growth <= LINEAR and each < AIM_MS else 1


if __name__ == "__main__":
    sys.exit(main())
