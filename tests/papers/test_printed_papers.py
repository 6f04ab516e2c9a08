"""What is printed, read back out of the PDF files: own numbers, the right key, nothing else."""

import datetime
import io
import re

import pytest
from paper_samples import QUESTIONS, class_paper, write_sheet
from pypdf import PdfReader

from levelkit import __version__
from levelkit.cli import main
from levelkit.constants import CAUTION
from levelkit.errors import InputError, LevelkitError
from levelkit.exercises import with_data
from levelkit.papers.documents import paper_documents
from levelkit.papers.making import make_papers
from levelkit.papers.sheet_file import read_sheet
from levelkit.papers.typesetting import TEMPLATES, compile_pdf

NOW = datetime.datetime(2026, 3, 12, 14, 5, 6)
COUNT = 4


def joined(text):
    """Text without its line breaks and spaces, which a PDF file does not keep."""
    return re.sub(r"\s+", "", text)


@pytest.fixture(scope="module")
def printed(tmp_path_factory):
    """The paper, its files as PDF readers, and the text of every page."""
    paper = class_paper(tmp_path_factory.mktemp("class"), COUNT)
    readers = {name: PdfReader(io.BytesIO(content))
               for name, content in paper_documents(paper).items()}
    texts = {name: [page.extract_text() for page in reader.pages]
             for name, reader in readers.items()}
    return paper, readers, texts


def pages_of(texts, number):
    """Pages whose footer names a candidate."""
    return [text for text in texts if re.search(rf"andidate {number}\b.*\n?.*seed", text)]


def numbers_on_paper(family, page):
    """Read the given quantities out of the printed question, by the template of its text."""
    places = re.split(r"\{(\w+)\}", family.text)
    pattern = "".join(f"(?P<{part}>.+?)" if index % 2 else re.escape(joined(part))
                      for index, part in enumerate(places))
    match = re.search(pattern, joined(page))
    return {name: float(re.match(r"[−-]?[\d.]+", text).group().replace("−", "-"))
            for name, text in match.groupdict().items()}


@pytest.mark.parametrize("index", range(COUNT))
def test_printed_numbers_solved_anew_give_the_printed_key(printed, index):
    """Paper to numbers to a fresh solution to the scheme: three files, one truth."""
    paper, _, texts = printed
    number = paper.papers[index].candidate.number
    questions = "\n".join(pages_of(texts["question_papers.pdf"], number))
    scheme = joined("\n".join(pages_of(texts["mark_schemes.pdf"], number)))
    for variant in paper.papers[index].variants:
        found = numbers_on_paper(variant.family, questions)
        assert len(found) == len(variant.givens)
        assert found == {given.name: given.value for given in variant.givens}
        hidden = {name: value for name, value in variant.data.items()
                  if variant.family.given(name).values and name not in found}
        solved = with_data(variant.family.id, **{
            name: value for name, value in {**found, **hidden}.items()
            if variant.family.given(name).values or name in found})
        for step in solved.family.value_steps:
            shown = solved.numbers[step.id]
            assert joined(f"={step.si.after(shown)}") in scheme, (step.id, shown)


def test_no_candidate_has_a_page_of_another(printed):
    paper, _, texts = printed
    for one in paper.papers:
        text = joined("\n".join(pages_of(texts["question_papers.pdf"], one.candidate.number)))
        for other in paper.papers:
            for variant in other.variants:
                assert (joined(variant.text) in text) == (other is one)


def test_one_question_to_a_page_and_everybody_begins_on_a_right_hand_page(printed):
    paper, _, texts = printed
    pages = texts["question_papers.pdf"]
    starts = [index for index, text in enumerate(pages) if "page 1 of" in text]
    assert len(starts) == COUNT and all(start % 2 == 0 for start in starts)
    for text in pages:
        assert len(re.findall(r"Question \d \d marks?", text)) <= 1
    normal = pages_of(pages, "1001")
    assert len(normal) == 1 + len(QUESTIONS) and "page 6 of 6" in normal[-1]


def test_larger_type_for_whoever_wants_it(printed):
    paper, readers, texts = printed
    pages = texts["question_papers.pdf"]
    assert len(pages_of(pages, "1002")) > len(pages_of(pages, "1001"))

    def size(number):
        """Size of the type of the instructions on the cover."""
        cover = next(page for page, text in zip(readers["question_papers.pdf"].pages, pages,
                                                strict=True) if f"Candidate {number}" in text)
        found = []
        cover.extract_text(visitor_text=lambda text, _, matrix, font, size:
                           found.append(size) if "pocket" in text else None)
        return found[0]
    assert size("1002") == 18.0 and size("1001") == 11.0
    assert (joined("113 minutes (25 % extra time included)")  # 112.5, rounded in his favour
            in joined(pages_of(pages, "1002")[0]))


def test_every_page_carries_code_issue_version_and_caution(printed):
    paper, _, texts = printed
    for name, pages in texts.items():
        for text in pages:
            if not text.strip():
                continue  # the back of a last page
            assert f"levelkit {__version__}, issue {paper.issue}" in text, name
            assert joined(CAUTION) in joined(text)
    assert all(len(pages_of(texts["question_papers.pdf"], one.candidate.number)) for one in
               paper.papers)


def test_the_name_stands_on_the_cover_only_and_the_secret_nowhere(printed):
    paper, readers, texts = printed
    for name, pages in texts.items():
        for text in pages:
            cover = name == "question_papers.pdf" and "page 1 of" in text
            assert ("Invented Cadet" in text) == cover
            assert paper.sheet.secret not in text
    for reader in readers.values():
        assert not re.search("Cadet", str(reader.metadata))


def test_titles_that_tell_the_answer_are_for_the_examiner_only(printed):
    paper, _, texts = printed
    for one in paper.families:
        assert joined(one.title) not in joined("".join(texts["question_papers.pdf"]))
        assert joined(one.title) in joined("".join(texts["worked_copy.pdf"]))


def test_the_worked_copy_holds_hints_slips_and_numbers_nobody_has(printed):
    paper, _, texts = printed
    text = joined("".join(texts["worked_copy.pdf"]))
    for variant in paper.specimen.variants:
        assert joined(variant.text) in text
        for step in variant.family.steps:
            assert joined(step.hint).replace("_", "") in text
        for slip in variant.family.slips:
            assert joined(slip.sentence) in text


def test_the_data_sheet_holds_what_this_paper_needs(printed, tmp_path):
    _, _, texts = printed
    text = "".join(texts["data_sheet.pdf"])
    assert "Saturated water and steam" in text and "Standard current signal" in text
    assert "pneumatic" not in text and "273 K" not in text
    assert "Formulas" in text
    plain = class_paper(tmp_path, 2, questions='["glass-reads-low"]',
                        tables="[print]\nformula_sheet = false\nanswer_book = false")
    made = paper_documents(plain)
    assert "answer_book.pdf" not in made
    text = PdfReader(io.BytesIO(made["data_sheet.pdf"])).pages[0].extract_text()
    assert "Every number needed stands in the questions." in text and "Formulas" not in text


def test_the_answer_book_holds_blanks_of_the_gauges_that_are_asked_for(tmp_path):
    tables = '[print]\nblank_drawings = ["tubular gauge", "plate gauge"]'
    made = paper_documents(class_paper(tmp_path, 1, questions='["glass-reads-low"]',
                                       tables=tables))["answer_book.pdf"]
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(made)).pages]
    assert ["Drawing" in text for text in pages] == [False, False, True, True]
    assert not any("gland" in text or "mica" in text for text in pages)


def test_page_sizes(printed, tmp_path):
    _, readers, _ = printed
    letter = paper_documents(class_paper(tmp_path, 1, questions='["glass-reads-low"]',
                                         tables='[print]\npage = "Letter"'))
    for reader, size in ((readers["question_papers.pdf"], (595, 842)),
                         (PdfReader(io.BytesIO(letter["question_papers.pdf"])), (612, 792))):
        assert {(round(float(page.mediabox.width)), round(float(page.mediabox.height)))
                for page in reader.pages} == {size}


def test_no_colour_is_used(printed):
    """Every colour that is set in the page streams is a grey, and no template names another."""
    _, readers, _ = printed
    seen = 0
    for name in ("question_papers.pdf", "answer_book.pdf"):
        for page in readers[name].pages[:6]:
            stream = page.get_contents().get_data().decode("latin-1")
            for colour in re.findall(r"((?:[\d.]+ )+)(?:rg|RG|scn|SCN|sc|SC)\b", stream):
                values = colour.split()
                seen += 1
                assert len(values) == 1 or len(set(values[:3])) == 1, colour
    assert seen > 10
    for template in TEMPLATES.glob("*.typ"):
        assert not re.search(r"rgb\(|cmyk|\b(red|blue|green|orange|navy)\b", template.read_text())


def test_the_same_paper_gives_the_same_bytes(printed, tmp_path):
    paper, _, _ = printed
    sheet = write_sheet(tmp_path, 2)
    folder, first = make_papers(sheet, NOW)
    _, second = make_papers(sheet, NOW)
    assert first[-1].startswith("2 papers of 5 questions, 31 marks, issue ")
    assert second == ["answers.csv is left as it is: it may hold answers already.", first[-1]]
    assert not (folder / "earlier").exists()
    assert sorted(path.name for path in folder.iterdir()) == [
        "answer_book.pdf", "answers.csv", "data_sheet.pdf", "mark_schemes.pdf", "paper.json",
        "question_papers.pdf", "worked_copy.pdf"]


def test_a_last_minute_change_keeps_the_old_print(tmp_path):
    make_papers(write_sheet(tmp_path, 2, questions='["glass-reads-low"]'), NOW)
    answers = tmp_path / "test_1" / "answers.csv"
    answers.write_text("typed already")
    folder, said = make_papers(write_sheet(tmp_path, 2, minutes="80",
                                           questions='["glass-reads-low"]'), NOW)
    assert answers.read_text() == "typed already"
    assert any(sentence.startswith("question_papers.pdf is renewed") for sentence in said)
    assert (folder / "earlier" / "question_papers 2026-03-12 14-05-06.pdf").is_file()


def test_the_command_makes_papers_and_answers_a_mistake_with_a_sentence(tmp_path, capsys):
    sheet = write_sheet(tmp_path, 2, questions='["glass-reads-low"]')
    assert main(["paper", str(sheet)]) == 0
    assert "2 papers of 1 questions, 7 marks" in capsys.readouterr().out
    assert (tmp_path / "test_1" / "question_papers.pdf").is_file()
    assert main(["paper", str(tmp_path / "none.toml")]) == 2
    assert capsys.readouterr().err.startswith("levelkit: The sheet file ")


def test_a_resit_says_what_is_equal(tmp_path):
    make_papers(write_sheet(tmp_path, 3, questions='["glass-reads-low"]'), NOW)
    resit = write_sheet(tmp_path, 3, name="resit", sheet='"test 1 resit"', questions=None,
                        resit_of='"test_1"', candidates='["1002"]')
    _, said = make_papers(resit, NOW)
    assert any("the same question families, so the same outcomes (L03.1, L03.2)" in one
               for one in said)
    assert "1 papers of 1 questions" in said[-1]


def test_a_paper_that_cannot_be_solved_is_not_written(tmp_path, monkeypatch):
    monkeypatch.setattr("levelkit.papers.making.findings", lambda paper: (("A fault.",), ()))
    with pytest.raises(InputError, match="cannot be solved on paper. A fault."):
        make_papers(write_sheet(tmp_path, 2), NOW)
    assert not (tmp_path / "test_1").exists()


def test_a_broken_template_is_a_fault_of_ours_with_typsts_words():
    with pytest.raises(LevelkitError, match="template question_paper cannot be set"):
        compile_pdf("question_paper", {"papers": [{}]})


def test_versions_without_register_are_named_on_the_paper(tmp_path):
    sheet = read_sheet(write_sheet(tmp_path, register=None, versions="2",
                                   questions='["glass-reads-low"]'))
    folder, said = make_papers(sheet.path, NOW)
    text = PdfReader(folder / "question_papers.pdf").pages[0].extract_text()
    assert "Version A" in text and "Candidate A" in text
