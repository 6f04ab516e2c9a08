"""What could not be read, with the place and what to do; nothing is dropped in silence."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """A row or file that could not be used.

    Attributes
    ----------
    file : str
        Name of the file.
    line : int
        Line in it, from 1; 0 for the file as a whole.
    problem, cure : str
        What is wrong; what to do.
    text : str
        What stands there, so that nothing is lost.
    """

    file: str
    line: int
    problem: str
    cure: str
    text: str = ""

    def __str__(self):
        place = f"{self.file}, line {self.line}" if self.line else self.file
        return f"{place}: {self.problem} {self.cure}"
