"""The commands for a class: papers, marking, reports. Each only reads its arguments."""

import datetime
from pathlib import Path


def add_class_commands(commands):
    """Add the commands to the parser of `levelkit`."""
    paper = commands.add_parser(
        "paper", help="print papers, mark schemes and data sheet for a class",
        description="Make all documents of a sheet file, as PDF, in the folder of the same name. "
                    "What stood there before is kept as a dated copy.")
    paper.add_argument("sheet", help="the sheet file, such as test_1.toml")
    paper.set_defaults(run=_paper)

    handout = commands.add_parser(
        "handout", help="print lessons for students and for the lecturer",
        description="Make each lesson as PDF and as a web page: words, formulas and still pictures "
                    "without code. The student edition has no answers; the lecturer's edition has "
                    "them, worked exercises and the notes. Notebooks are read, never run.")
    handout.add_argument("lessons", nargs="*", help="numbers such as 03, or notebooks of your own; "
                                                    "default: all lessons")
    handout.add_argument("--edition", choices=("both", "student", "lecturer"), default="both")
    handout.add_argument("--page", choices=("A4", "Letter"), default="A4")
    handout.add_argument("--large", action="store_true", help="larger type")
    handout.add_argument("--output", type=Path, default=Path("handouts"))
    handout.set_defaults(run=_handout)

    plan = commands.add_parser(
        "plan", help="print lesson plans: objectives, clock, predictions, what to bring",
        description="Make the plan of each lesson as PDF and as a web page, from the notebook and "
                    "from the notes beside it. Notebooks are read, never run.")
    plan.add_argument("lessons", nargs="*", help="numbers such as 03, or notebooks of your own; "
                                                 "default: all lessons")
    plan.add_argument("--page", choices=("A4", "Letter"), default="A4")
    plan.add_argument("--output", type=Path, default=Path("plans"))
    plan.set_defaults(run=_plan)

    mark = commands.add_parser(
        "mark", help="mark what a class handed in",
        description="Mark answers.csv and the hand-ins of a folder of papers, or other files. "
                    "What cannot be read is told with file, line and what to do; the rest is "
                    "marked. Nothing that is handed in is run.")
    mark.add_argument("folder", type=Path, help="the folder that levelkit paper made")
    mark.add_argument("files", nargs="*", type=Path, help="grids (CSV) or hand-ins (JSON); "
                                                          "default: those of the folder")
    mark.add_argument("--rehearse", action="store_true",
                      help="invent hand-ins with known slips, to try it out before class")
    mark.set_defaults(run=_mark)

    override = commands.add_parser(
        "override", help="change one mark by hand, with the reason",
        description="Add a line to overrides.csv and mark again; the first mark stays readable.")
    override.add_argument("folder", type=Path)
    for name, words in (("candidate", "candidate number"), ("question", "number of the question"),
                        ("step", "name of the step, as in marks.csv"), ("marks", "new marks")):
        override.add_argument(name, help=words)
    override.add_argument("--reason", required=True)
    override.add_argument("--by", default="", help="initials")
    override.set_defaults(run=_override)

    report = commands.add_parser(
        "report", help="class report, feedback pages, anonymous marks",
        description="Write the class report, one feedback page for each candidate, and the marks "
                    "without names or numbers for an external examiner.")
    report.add_argument("folder", type=Path)
    report.add_argument("files", nargs="*", type=Path)
    report.set_defaults(run=_report)

    second = commands.add_parser(
        "second-marker", help="a blind sample for a second marker, and the comparison",
        description="Write some scripts without number and marks; with --back compare the sheet "
                    "that came back.")
    second.add_argument("folder", type=Path)
    second.add_argument("--count", type=int, default=8, help="scripts in the sample (default: 8)")
    second.add_argument("--back", action="store_true", help="compare the filled-in sheet")
    second.set_defaults(run=_second)

    delete = commands.add_parser(
        "delete-class", help="delete everything kept of a class",
        description="Delete sheets, register, papers, answers, marks and all copies of a class, "
                    "for good. Give the name of the class to show that you mean it.")
    delete.add_argument("folder", type=Path, help="where the sheet files of the class are")
    delete.add_argument("class_name", help="name of the class, as in its sheet files")
    delete.set_defaults(run=_delete)

    qti = commands.add_parser(
        "qti", help="a package of question families for a learning platform",
        description="Write a QTI 2.1 package: of each family every learner draws one variant. "
                    "The platform marks by step and names the slip; follow-through it cannot do.")
    qti.add_argument("families", nargs="+", help="ids of question families")
    qti.add_argument("--secret", required=True, help="another secret gives other numbers")
    qti.add_argument("--variants", type=int, default=10, help="of each family (default: 10)")
    qti.add_argument("--output", type=Path, default=Path("levelkit_questions.zip"))
    qti.set_defaults(run=_qti)

    matrix = commands.add_parser(
        "matrix", help="print what each of 45 faults does to each indicator",
        description="Compute the fault matrix of the ship's water-tube boiler at three pressures "
                    "and two levels, and write it as PDF.")
    matrix.add_argument("--page", default="A4", help="A4 or Letter (default: A4)")
    matrix.add_argument("--output", type=Path, default=Path("fault_matrix.pdf"))
    matrix.set_defaults(run=_matrix)

    syllabus = commands.add_parser(
        "syllabus", help="where each outcome is taught, practised and assessed",
        description="Write the syllabus map and the competence tables as CSV, with gaps; from "
                    "marked folders also who has shown which outcome on which paper.")
    syllabus.add_argument("folders", nargs="*", type=Path,
                          help="marked folders of papers that count as evidence")
    syllabus.add_argument("--outcomes", type=Path, help="the college's own list of outcomes (CSV)")
    syllabus.add_argument("--output", type=Path, default=Path("."))
    syllabus.set_defaults(run=_syllabus)


def _now():
    return datetime.datetime.now()


def _told(sentences):
    for sentence in sentences:
        print(sentence)
    return 0


def _paper(options):
    from ..papers.making import make_papers

    _, sentences = make_papers(options.sheet, _now())
    return _told(sentences)


def _handout(options):
    from ..papers.handout import lesson_paths
    from ..papers.handout_files import EDITIONS, make_handouts

    editions = tuple(EDITIONS) if options.edition == "both" else (options.edition,)
    return _told(make_handouts(lesson_paths(options.lessons), options.output, _now(), editions,
                               options.page, options.large))


def _plan(options):
    from ..papers.handout import lesson_paths
    from ..papers.handout_files import make_plans

    return _told(make_plans(lesson_paths(options.lessons), options.output, _now(), options.page))


def _mark(options):
    from ..records.class_folder import mark_folder, rehearse_folder

    if options.rehearse:
        return _told(rehearse_folder(options.folder, _now()))
    return _told(mark_folder(options.folder, _now(), options.files))


def _override(options):
    from ..records.class_folder import change_mark

    return _told(change_mark(options.folder, _now(), options.candidate, options.question,
                             options.step, options.marks, options.reason, options.by))


def _report(options):
    from ..records.class_folder import report_folder

    return _told(report_folder(options.folder, _now(), options.files))


def _second(options):
    from ..records.class_folder import second_marker, second_marker_back

    if options.back:
        return _told(second_marker_back(options.folder))
    return _told(second_marker(options.folder, _now(), options.count))


def _delete(options):
    from ..records.privacy import delete_class

    deleted, left = delete_class(options.folder, options.class_name)
    print(f"{deleted} files of the class are deleted.")
    return _told(f"Left, for it is not ours: {path}" for path in left)


def _qti(options):
    from ..exchange.qti_package import qti_package
    from ..papers.keeping import write_kept

    content = qti_package(options.families, options.secret, options.variants)
    kept = write_kept(options.output, content, _now())
    return _told(filter(None, [kept, f"{options.variants} variants of {len(options.families)} "
                                     f"question families are in {options.output}."]))


def _matrix(options):
    from ..papers.fault_matrix import matrix_pdf
    from ..papers.keeping import write_kept
    from ..scenario import load_ship

    ship = load_ship()
    content = matrix_pdf(ship.boilers["water_tube"], ship.barometer, options.page)
    kept = write_kept(options.output, content, _now())
    return _told(filter(None, [kept, f"The matrix of faults is in {options.output}."]))


def _syllabus(options):
    from ..exchange.syllabus import evidence_csv, map_csv, syllabus_map, tables_csv
    from ..papers.keeping import write_kept
    from ..records.class_folder import marks_of

    marks = [marks_of(folder) for folder in options.folders]
    rows = syllabus_map(marks, *([options.outcomes] if options.outcomes else []))
    files = {"syllabus_map.csv": map_csv(rows), "stcw_tables.csv": tables_csv()}
    if marks:
        files["evidence.csv"] = evidence_csv(marks)
    said = [write_kept(options.output / name, text, _now()) for name, text in files.items()]
    gaps = [f"{row.outcome}: {', '.join(row.gaps)}." for row in rows if row.gaps]
    return _told(filter(None, [*said, *gaps, f"{len(rows)} outcomes, {len(gaps)} with gaps, are "
                                             f"in {options.output / 'syllabus_map.csv'}."]))
