"""The paper of a class: every candidate's questions with their own numbers, from one sheet."""

from dataclasses import dataclass, replace
from hashlib import sha256

from .. import __version__
from ..errors import InputError
from ..exercises import class_variants, variant
from ..exercises.selection import seed_code
from .register import Candidate
from .sheet_file import LETTERS

SPECIMEN = "specimen"


@dataclass(frozen=True, slots=True)
class CandidatePaper:
    """The questions of one candidate.

    Attributes
    ----------
    candidate : Candidate
        Whose paper it is.
    seed : str
        Last part of the seed: the candidate number, or the letter of a version.
    variants : tuple of Variant
        The questions in order.
    """

    candidate: object
    seed: str
    variants: tuple

    @property
    def marks(self):
        """Marks to be had."""
        return sum(one.family.marks for one in self.variants)


@dataclass(frozen=True, slots=True)
class ClassPaper:
    """A sheet with everybody's numbers.

    Attributes
    ----------
    sheet : PaperSheet
        What it was made from.
    papers : tuple of CandidatePaper
        In the order of the register.
    specimen : CandidatePaper
        Numbers that no candidate has, for the examiner's worked copy.
    notes : tuple of str
        What the lecturer should know, such as candidates with the same numbers.
    """

    sheet: object
    papers: tuple
    specimen: CandidatePaper
    notes: tuple = ()

    @property
    def families(self):
        """The question families in order."""
        return tuple(one.family for one in self.specimen.variants)

    @property
    def marks(self):
        """Marks to be had."""
        return self.specimen.marks

    @property
    def issue(self):
        """Short code that changes with any number or word: the same on all papers of one print."""
        words = [self.sheet.title, self.sheet.class_name, str(self.sheet.date),
                 str(self.sheet.minutes), *self.sheet.instructions, __version__]
        for paper in (*self.papers, self.specimen):
            words += [paper.seed, *(one.text for one in paper.variants)]
        digits = sha256("\n".join(words).encode()).hexdigest()
        return f"{digits[:4]}-{digits[4:8]}"

    def with_variants(self, variants):
        """Return the paper with other numbers for some: variants by candidate and question."""
        papers = tuple(replace(one, variants=tuple(
            variants.get((one.candidate.number, question), kept)
            for question, kept in enumerate(one.variants, 1))) for one in self.papers)
        return replace(self, papers=papers)

    def paper(self, number):
        """Return the paper of a candidate."""
        for one in self.papers:
            if one.candidate.number == number:
                return one
        raise InputError(f"Candidate {number} is not among the {len(self.papers)} of this paper.")


def seed_code_of(sheet, seed):
    """Return the code that stands in the footer: it tells the seed, not the secret."""
    return seed_code(sheet.secret, sheet.name, seed)


def make_class_paper(sheet, first=None):
    """Return the paper of a class.

    Parameters
    ----------
    sheet : PaperSheet
        As read from its file.
    first : ClassPaper, optional
        The paper of which this one is a resit: same families, no numbers in common.

    Returns
    -------
    ClassPaper
        With the specimen and notes.

    Raises
    ------
    InputError
        From the bank.
    """
    family_ids = tuple(one.id for one in first.families) if first else sheet.family_ids
    seeds = _seeds(sheet)
    different = list(dict.fromkeys(seeds.values())) + [SPECIMEN]
    notes, columns = [], []
    for family_id in family_ids:
        if first:
            column, said = _fresh_variants(family_id, sheet, different, _used(first, family_id))
        else:
            made = class_variants(family_id, sheet.secret, sheet.name, different)
            column, said = made.variants, made.notes
        columns.append(column)
        notes += said
    papers = tuple(
        CandidatePaper(candidate, seeds[candidate.number],
                       tuple(column[seeds[candidate.number]] for column in columns))
        for candidate in sheet.candidates)
    specimen = CandidatePaper(Candidate(SPECIMEN), SPECIMEN,
                              tuple(column[SPECIMEN] for column in columns))
    return ClassPaper(sheet, papers, specimen, tuple(notes))


def _seeds(sheet):
    """The last part of the seed by candidate: the number, or the version's letter in turn."""
    if not sheet.versions:
        return {one.number: one.number for one in sheet.candidates}
    return {one.number: LETTERS[index % sheet.versions]
            for index, one in enumerate(sheet.candidates)}


def _used(first, family_id):
    """Every text of one question in an earlier paper."""
    return {one.text for paper in (*first.papers, first.specimen) for one in paper.variants
            if one.family.id == family_id}


def _fresh_variants(family_id, sheet, seeds, used):
    """Variants by seed, unlike each other and unlike those in `used`; and notes."""
    made, notes, used = {}, [], set(used)
    for seed in seeds:
        place = 0
        try:
            while (one := variant(family_id, sheet.secret, sheet.name, seed,
                                  place=place)).text in used:
                place += 1
        except InputError:
            one = variant(family_id, sheet.secret, sheet.name, seed)
            notes.append(f"Candidate {seed} has numbers in question {family_id} that have been "
                         "used before: the family has no others left.")
        used.add(one.text)
        made[seed] = one
    return made, notes
