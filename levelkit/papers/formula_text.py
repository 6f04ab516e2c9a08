"""A formula for typst and for web pages; both hold nothing but what its tree allows."""

from html import escape

from .formula import FUNCTIONS, NUMBER, OPERATOR, SPACE, VARIABLE, WORD, Sign

_TYPST_SPACE = {"thin": "thin", "medium": "med", "wide": "quad", "widest": "wide"}
_WEB_SPACE = {"thin": "0.17em", "medium": "0.28em", "wide": "1em", "widest": "2em"}
_FREE = "=+−<>≈·≥≤←⇒→×±≠∝°∑≪≫∓′|:"


def typst_text(part):
    """Return a formula as text for typst's formula mode.

    Parameters
    ----------
    part : Sign or Build
        As read.

    Returns
    -------
    str
        Letters, numbers, quoted words and a handful of commands; nothing that could run.

    Examples
    --------
    >>> from levelkit.papers.formula import formula
    >>> typst_text(formula(r"\\frac{1}{2} h_g"))
    'frac(1, 2) attach(h, b: g)'
    """
    if isinstance(part, Sign):
        return _typst_sign(part)
    inside = [None if one is None else typst_text(one) for one in part.parts]
    if part.kind == "row":
        return " ".join(inside) if inside else '""'
    if part.kind == "fraction":
        return f"frac({inside[0]}, {inside[1]})"
    if part.kind == "scripts":
        base, below, above = inside
        return (f"attach({base}" + (f", b: {below}" if below else "")
                + (f", t: {above}" if above else "") + ")")
    if part.kind == "brace":
        return f"underbrace({inside[0]}" + (f", {inside[1]})" if inside[1] else ")")
    if part.kind == "fence":
        left, right = (f"\\{end}" if end else "" for end in part.ends)
        return f"lr({left} {inside[0]} {right})"
    return {"root": "sqrt", "bar": "overline", "dot": "dot"}[part.kind] + f"({inside[0]})"


def _typst_sign(sign):
    if sign.kind == SPACE:
        return _TYPST_SPACE[sign.text]
    if sign.kind == WORD:
        quoted = sign.text.replace("\\", "").replace('"', "")
        return f'op("{quoted}")' if quoted in FUNCTIONS else f'"{quoted}"'
    if sign.kind in (VARIABLE, NUMBER) or sign.text[0] in _FREE:
        return sign.text
    return f"\\{sign.text}"  # brackets, commas and strokes as they are


def mathml_text(part):
    """Return a formula as MathML without its outermost element.

    Examples
    --------
    >>> from levelkit.papers.formula import formula
    >>> mathml_text(formula("h_g"))
    '<mrow><msub><mi>h</mi><mi>g</mi></msub></mrow>'
    """
    if isinstance(part, Sign):
        return _web_sign(part)
    inside = ["" if one is None else mathml_text(one) for one in part.parts]
    joined = "".join(inside)
    if part.kind == "row":
        return f"<mrow>{joined}</mrow>"
    if part.kind == "fraction":
        return f"<mfrac>{joined}</mfrac>"
    if part.kind == "scripts":
        name = "msub" if not inside[2] else "msup" if not inside[1] else "msubsup"
        return f"<{name}>{joined}</{name}>"
    if part.kind == "brace":
        braced = f'<mrow style="border-bottom:1px solid">{inside[0]}</mrow>'
        return f"<munder>{braced}{inside[1]}</munder>" if inside[1] else braced
    if part.kind == "fence":
        left, right = (f"<mo>{escape(end)}</mo>" if end else "" for end in part.ends)
        return f"<mrow>{left}{joined}{right}</mrow>"
    if part.kind == "root":
        return f"<msqrt>{joined}</msqrt>"
    if part.kind == "bar":  # a rule needs no font for formulas, which many machines do not have
        return f'<mrow style="border-top:1px solid">{joined}</mrow>'
    return f'<mover accent="true">{joined}<mo>˙</mo></mover>'


def _web_sign(sign):
    if sign.kind == SPACE:
        return f'<mspace width="{_WEB_SPACE[sign.text]}"></mspace>'
    if sign.kind == OPERATOR:
        stretchy = ' stretchy="false"' if sign.text in "()[]|" else ""
        return f"<mo{stretchy}>{escape(sign.text)}</mo>"
    name = {VARIABLE: "mi", NUMBER: "mn", WORD: "mtext"}[sign.kind]
    kept = escape(sign.text).replace(" ", "\u00a0")
    gap = _web_sign(Sign(SPACE, "thin")) if sign.kind == WORD and sign.text in FUNCTIONS else ""
    return f"<{name}>{kept}</{name}>{gap}"
