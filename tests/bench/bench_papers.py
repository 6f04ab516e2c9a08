"""72 candidates, five questions: papers, schemes, worked copy, data sheet, answer book, timed.

Everything is made from nothing in fresh processes, as `levelkit paper` does it; then the PDF files
are read back by poppler's pdftotext and every candidate's numbers and key are looked for.
Run: python tests/bench/bench_papers.py [folder to keep the files in]
"""

import json
import os
import re
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
from paper_samples import write_sheet

CLASS, RUNS, AIM = 72, 3, 10.0
COMMAND = [sys.executable, "-c", "import sys; from levelkit.cli import main; sys.exit(main())"]


def processor_seconds():
    """Seconds that our finished commands have kept a core busy: hardly moved by a busy machine."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def text_of(path):
    """The text of a PDF file, page by page, without white space."""
    done = subprocess.run(["pdftotext", "-raw", str(path), "-"], capture_output=True, text=True,
                          check=True)
    return [re.sub(r"\s+", "", page) for page in done.stdout.split("\f")]


def printed_wrongly(folder):
    """Candidates whose question or key is not on their pages as the record has it."""
    from levelkit.papers.paper_record import read_paper

    papers, schemes = (text_of(folder / f"{name}.pdf")
                       for name in ("question_papers", "mark_schemes"))
    wrong = []
    for one in read_paper(folder).papers:
        number = one.candidate.number
        own, key = ("".join(page for page in pages if f"andidate{number}seed" in page)
                    for pages in (papers, schemes))
        for variant in one.variants:
            if re.sub(r"\s+", "", variant.text) not in own:
                wrong.append(f"{number} {variant.family.id}: question")
            for step in variant.family.value_steps:
                shown = re.sub(r"\s+", "", f"={step.si.after(variant.numbers[step.id])}")
                if shown not in key:
                    wrong.append(f"{number} {variant.family.id} {step.id}: key {shown}")
    return wrong


def main():
    keep = Path(sys.argv[1]) if len(sys.argv) > 1 else None
    times, works, load = [], [], os.getloadavg()[0]
    for _ in range(RUNS):
        with tempfile.TemporaryDirectory() as name:
            place = keep or Path(name)
            place.mkdir(parents=True, exist_ok=True)
            sheet = write_sheet(place, CLASS)
            start, used = time.perf_counter(), processor_seconds()
            subprocess.run([*COMMAND, "paper", str(sheet)], check=True, stdout=subprocess.DEVNULL)
            times.append(time.perf_counter() - start)
            works.append(processor_seconds() - used)
            folder = place / "test_1"
            wrong = printed_wrongly(folder)
            pages = {path.stem: len(text_of(path)) - 1 for path in sorted(folder.glob("*.pdf"))}
    print(json.dumps({
        "candidates": CLASS, "questions": 5, "pages": pages,
        "seconds_each_run": [round(one, 2) for one in times],
        "seconds_median": round(statistics.median(times), 2), "aim_seconds": AIM,
        "processor_seconds_median": round(statistics.median(works), 2),
        "load_at_start": round(load, 2),
        "printed_wrongly": wrong}, indent=1))
    return 0 if statistics.median(times) < AIM and not wrong else 1


if __name__ == "__main__":
    sys.exit(main())
