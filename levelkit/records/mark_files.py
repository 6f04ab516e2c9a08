"""Marks as plain CSV files that open without this tool."""

from .csv_rows import csv_text


def marks_csv(marks):
    """Return one row for each step: what was typed, what it earned, and why."""
    head = ("candidate", "question", "family", "step", "answer", "verdict", "marks", "of", "slip",
            "misconception", "said", "marks before override", "reason for override")
    rows = []
    for one in marks.candidates:
        for step in one.steps:
            family = marks.paper.families[step.question - 1]
            rows.append([
                one.number, step.question, family.id, step.mark.step, step.mark.entry,
                step.mark.verdict, step.marks, step.mark.of, step.mark.slip,
                step.mark.misconception, step.mark.message,
                step.mark.marks if step.override else "",
                step.override.reason if step.override else ""])
    return csv_text(head, rows)


def totals_csv(marks):
    """Return one row for each candidate: marks by question, sum, share."""
    paper = marks.paper
    head = ["candidate", *(f"question {number} [of {one.marks}]"
                           for number, one in enumerate(paper.families, 1)),
            f"sum [of {paper.marks}]", "share [%]", "misconceptions"]
    rows = []
    for one in marks.candidates:
        if not one.present:
            rows.append([one.number, *("absent" for _ in paper.families), "absent", "", ""])
            continue
        rows.append([one.number, *(one.of_question(number)
                                   for number in range(1, one.questions + 1)),
                     one.total, f"{100 * one.total / paper.marks:.1f}",
                     " ".join(one.misconceptions)])
    return csv_text(head, rows)


def faults_csv(faults):
    """Return one row for each line or file that could not be used, with what stands there."""
    return csv_text(("file", "line", "problem", "what to do", "text"),
                    [[one.file, one.line or "", one.problem, one.cure, one.text]
                     for one in faults])
