"""The commands for a class: papers, marking, reports. Each only reads its arguments."""

import datetime


def add_class_commands(commands):
    """Add the commands to the parser of `levelkit`."""
    paper = commands.add_parser(
        "paper", help="print papers, mark schemes and data sheet for a class",
        description="Make all documents of a sheet file, as PDF, in the folder of the same name. "
                    "What stood there before is kept as a dated copy.")
    paper.add_argument("sheet", help="the sheet file, such as test_1.toml")
    paper.set_defaults(run=_paper)


def _told(sentences):
    for sentence in sentences:
        print(sentence)
    return 0


def _paper(options):
    from ..papers.making import make_papers

    _, sentences = make_papers(options.sheet, datetime.datetime.now())
    return _told(sentences)
