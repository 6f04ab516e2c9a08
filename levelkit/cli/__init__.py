"""The command `levelkit`: thin, one module for each thing it does."""

import argparse
import sys

from .. import __version__
from ..errors import LevelkitError
from .class_commands import add_class_commands


def main(arguments=None):
    """Run the command and return its exit status; a mistake of the user becomes a sentence."""
    options = _parser().parse_args(arguments)
    try:
        if any("\0" in str(value) for value in vars(options).values()):
            raise LevelkitError("A name with a NUL character is no name of a file or a candidate. "
                                "Type it again.")
        return options.run(options)
    except LevelkitError as fault:
        print(f"levelkit: {fault}", file=sys.stderr)
        return 2
    except OSError as fault:
        print(f"levelkit: {fault.strerror}: {str(fault.filename)[:200]}. Choose another file or "
              "folder, or make room and leave to write there.", file=sys.stderr)
        return 2


def _parser():
    parser = argparse.ArgumentParser(
        prog="levelkit", description="Lessons about how the water level in a boiler is seen.")
    parser.add_argument("--version", action="version", version=f"levelkit {__version__}")
    commands = parser.add_subparsers(required=True, metavar="command")

    opening = commands.add_parser(
        "open", help="open the lessons in JupyterLab",
        description="Make or refresh your copy of the lessons and open the first one. "
                    "What you changed is never overwritten.")
    opening.add_argument("folder", nargs="?", help="where your copy is (default: levelkit-lessons "
                                                   "in your home folder)")
    opening.add_argument("--no-browser", action="store_true", help="do not open a browser window")
    opening.add_argument("--port", type=_port, help="port of the local server (default: 8888)")
    opening.set_defaults(run=_open)

    checking = commands.add_parser(
        "check", help="compare computed values with published ones",
        description="Print a page of values computed now beside published ones. The exit status "
                    "is 0 only if all agree and the planted wrong line is caught.")
    checking.add_argument("--room", action="store_true",
                          help="look at this computer before class instead: browser, versions, "
                               "fonts, speed, screen")
    checking.set_defaults(run=_check)

    add_class_commands(commands)
    return parser


def _port(text):
    if not (text.isascii() and text.isdigit() and 1 <= int(text) <= 65_535):
        raise argparse.ArgumentTypeError(f"{text!r} is no port; the allowed range is 1 to 65535")
    return int(text)


def _open(options):
    from .opening import open_lessons

    return open_lessons(options.folder, browser=not options.no_browser, port=options.port)


def _check(options):
    if options.room:
        from ..room import room_page as page_of
    else:
        from ..check import check_page as page_of

    page, passed = page_of()
    print(page)
    return 0 if passed else 1
