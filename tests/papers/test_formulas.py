"""Formulas of the lessons for paper and for web pages: right in structure, and harmless."""

import re
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from levelkit.errors import InputError
from levelkit.papers.formula import formula
from levelkit.papers.formula_text import mathml_text, typst_text


@pytest.mark.parametrize("latex, typst, mathml", [
    (r"\rho_g", "attach(ρ, b: g)", "<msub><mi>ρ</mi><mi>g</mi></msub>"),
    (r"U'_s", "attach(U, b: s, t: ′)", "<msubsup><mi>U</mi><mi>s</mi><mo>′</mo></msubsup>"),
    (r"e^{-\zeta/\lambda}", r"attach(e, t: − ζ \/ λ)",
     "<msup><mi>e</mi><mrow><mo>−</mo><mi>ζ</mi><mo>/</mo><mi>λ</mi></mrow></msup>"),
    (r"\frac{a}{b}", "frac(a, b)", "<mfrac><mrow><mi>a</mi></mrow><mrow><mi>b</mi></mrow></mfrac>"),
    (r"R_{cable}", 'attach(R, b: "cable")', "<msub><mi>R</mi><mtext>cable</mtext></msub>"),
    (r"h_{fg}", "attach(h, b: f g)", "<msub><mi>h</mi><mrow><mi>f</mi><mi>g</mi></mrow></msub>"),
    (r"\sqrt{2 x}", "sqrt(2 x)", "<msqrt><mrow><mn>2</mn><mi>x</mi></mrow></msqrt>"),
    (r"\text{so that } S", '"so that " S', "<mtext>so that </mtext><mi>S</mi>"),
    (r"\left(a\right)", r"lr(\( a \))",
     "<mrow><mo>(</mo><mrow><mi>a</mi></mrow><mo>)</mo></mrow>"),
    (r"f(a,b)", r"f \( a \, b \)", None),
])
def test_a_formula_in_both_languages(latex, typst, mathml):
    tree = formula(latex)
    assert typst_text(tree) == typst
    if mathml:
        assert mathml_text(tree) == f"<mrow>{mathml}</mrow>".replace(
            "so that ", "so that\u00a0").replace("so that", "so\u00a0that")


@pytest.mark.parametrize("latex, complaint", [
    (r"\href{a}{b}", r"the command \\href"), (r"\frac{a}", "breaks off"), ("a}", "too many"),
    ("{a", "breaks off"), (r"\left( a", r"\\left without \\right"), ("a_", "breaks off"),
    ("#read(1)", "“#” stands alone"), (r"\text a", "words without braces"),
])
def test_what_cannot_be_set_is_a_sentence(latex, complaint):
    with pytest.raises(InputError, match=complaint):
        formula(latex)


@given(st.text(alphabet=r'\{}_^#$&"()[];,abcρ12 ' + "'", max_size=24))
def test_whatever_is_typed_neither_runs_nor_breaks_the_page(latex):
    """Typst goes from formula to code at a bare #; a web page leaves its text at a bare <."""
    try:
        tree = formula(latex)
    except InputError:
        return
    text = typst_text(tree)
    bare = re.sub(r'"[^"]*"', "", text)
    assert not re.search(r"(?<!\\)#", bare) and "$" not in bare.replace("\\$", "")
    ET.fromstring(f"<math>{mathml_text(tree)}</math>")
