"""Packages for a learning platform keep to the standard and score as our own marking does."""

import io
import zipfile
from xml.etree import ElementTree as ET

import pytest
from qti_rules import NAMESPACE, PACKAGING, faults, manifest_faults, score

from levelkit.cli import main
from levelkit.errors import InputError
from levelkit.exchange.qti_item import choice_name, item, shown_key, slip_name, xml_text
from levelkit.exchange.qti_package import qti_package
from levelkit.exercises import families, mark, variant

FAMILIES = ["glass-reads-low", "error-grows-with-pressure", "five-point-check"]


@pytest.fixture(scope="module")
def package():
    return zipfile.ZipFile(io.BytesIO(qti_package(FAMILIES, "secret", variants=3)))


def responses(one, changed=None):
    """Right answers of a question as a platform would send them."""
    found = {}
    for step in one.family.asked_steps:
        right = one.solution.steps[step.id]
        if step.kind == "choice":
            found[step.id] = choice_name(right)
            continue
        found[step.id] = repr(shown_key(step, right))
        if step.direction:
            found[f"{step.id}_direction"] = step.direction[0 if right < 0 else 1]
    return {**found, **(changed or {})}


@pytest.mark.parametrize("family_id", list(families()))
def test_every_family_of_the_bank_makes_a_valid_item_that_scores(family_id):
    one = variant(family_id, "qti")
    text = xml_text(item(one, f"{family_id}_01"))
    assert faults(text) == []
    assert score(text, responses(one)) == (one.family.marks, [], [])
    assert score(text, {})[0] == 0


@pytest.mark.parametrize("family_id", list(families()))
def test_every_known_slip_is_told_and_costs_what_our_marking_takes(family_id):
    one = variant(family_id, "qti")
    text = xml_text(item(one, "x"))
    for slip in one.family.slips:
        step = one.family.step(slip.step)
        value = one.solution.slips[slip.id]
        made = responses(one, {step.id: repr(shown_key(step, value))})
        reached, shown, told = score(text, made)
        assert shown == [slip_name(step.id, slip.id)]
        assert told[0].startswith(slip.sentence) and "Lesson " in told[0]
        word = step.direction[0 if value < 0 else 1] if step.direction else ""
        typed = f"{shown_key(step, value):.12g} {step.si.shown} {word}"
        alone = mark(one, {step.id: typed})
        at_this_step = {each.id for each in one.family.steps
                        if step.id in (each.id, each.shown_by)}
        ours = sum(each.marks for each in alone.steps if each.step in at_this_step)
        if step.direction:  # the platform was told the right direction beside the wrong number
            right = one.solution.steps[step.id]
            ours += step.mark_kinds["B"] * ((value < 0) != (right < 0))
        lost = sum(each.of for each in alone.steps if each.step in at_this_step) - ours
        assert reached == one.family.marks - lost, slip.id


def test_a_wrong_option_and_a_wrong_direction(package):
    one = variant("glass-reads-low", "secret", "qti", 1)
    text = package.read("items/glass-reads-low_01.xml").decode()
    assert score(text, responses(one, {"error_direction": "high"}))[0] == 6
    grows = variant("error-grows-with-pressure", "secret", "qti", 2)
    text = package.read("items/error-grows-with-pressure_02.xml").decode()
    reached, shown, told = score(text, responses(grows, {"reason": choice_name("squeezed")}))
    assert reached == grows.family.marks - 2 and shown == ["slip_reason_squeezed"]
    assert told[0].startswith("The same pressure stands on the drum's water")


def test_titles_do_not_tell_the_answer(package):
    for name in package.namelist():
        if name.startswith("items/"):
            title = ET.fromstring(package.read(name)).get("title")
            assert title.endswith(" marks") and "reads low" not in title


def test_manifest_names_every_file_and_nothing_else(package):
    manifest = ET.fromstring(package.read("imsmanifest.xml"))
    assert manifest_faults(package.read("imsmanifest.xml").decode()) == []
    resources = manifest.findall(f"{PACKAGING}resources/{PACKAGING}resource")
    listed = {file.get("href") for one in resources for file in one.iter(f"{PACKAGING}file")}
    assert listed == set(package.namelist()) - {"imsmanifest.xml"}
    kinds = {one.get("type") for one in resources}
    assert kinds == {"imsqti_test_xmlv2p1", "imsqti_item_xmlv2p1"}
    named = {one.get("identifier") for one in resources}
    wanted = {one.get("identifierref") for one in manifest.iter(f"{PACKAGING}dependency")}
    assert wanted == named - {"test"} and len(named) == 10


def test_the_test_draws_one_variant_of_each_family(package):
    text = package.read("test.xml").decode()
    assert faults(text) == []
    test = ET.fromstring(text)
    sections = list(test.iter(f"{NAMESPACE}assessmentSection"))
    assert [one.find(f"{NAMESPACE}selection").get("select") for one in sections] == ["1"] * 3
    for one in test.iter(f"{NAMESPACE}assessmentItemRef"):
        found = ET.fromstring(package.read(one.get("href")))
        assert found.get("identifier") == one.get("identifier")


def test_drawings_stand_where_the_items_look_for_them(package):
    for name in package.namelist():
        if name.startswith("items/"):
            for picture in ET.fromstring(package.read(name)).iter(f"{NAMESPACE}img"):
                assert picture.get("alt")
                assert picture.get("src").removeprefix("../") in package.namelist()
    assert package.read("pictures/gauge-glass.svg").startswith(b"<svg")


def test_the_same_choice_gives_the_same_bytes_and_another_secret_other_numbers():
    one, again, other = (qti_package(["glass-reads-low"], secret, 2)
                         for secret in ("a", "a", "b"))
    assert one == again != other


@pytest.mark.parametrize("spoil, complaint", [
    (("<itemBody>", "<itemBody>loose text"), "itemBody: text is not allowed"),
    (('identifier="height" cardinality', 'identifier="2 high" cardinality'), "is no identifier"),
    ((' cardinality="single" baseType="float"', ""), "cardinality is missing"),
    (("responseIf>", "responseElse>"), "responseElse"),
    (('cardinality="single"', 'cardinality="one"'), "cardinality is 'one'"),
    (('toleranceMode="absolute"', 'toleranceMode="about"'), "toleranceMode is 'about'"),
    (('showHide="show"', 'showHide="yes"'), "showHide is 'yes'"),
    (('tolerance="', 'tolerance="x'), "which is no number"),
    (("<prompt>", "<script>"), "mismatched"),
])
def test_the_rules_can_fail(package, spoil, complaint):
    text = package.read("items/glass-reads-low_01.xml").decode()
    spoilt = text.replace(*spoil)
    if complaint == "mismatched":
        with pytest.raises(ET.ParseError):
            faults(spoilt + "</x>")
    else:
        assert any(complaint in fault for fault in faults(spoilt))


@pytest.mark.parametrize("spoil, complaint", [
    (("<schemaversion>1.0.0<", "<schemaversion>2.1<"), "schemaversion: the text '2.1'"),
    (("<schema>QTIv2.1 Package<", "<schema>A package<"), "schema: the text"),
    (("imsqti_item_xmlv2p1", "imsqti_item"), "resource: type is 'imsqti_item'"),
    (('identifierref="glass-reads-low_01"', 'identifierref="gone"'), "has the identifier gone"),
    (('<resource identifier="glass-reads-low_02"', '<resource identifier="test"'), "stands twice"),
    (("<organizations />", ""), "organizations is missing"),
    (("<organizations />", "<organizations>free text</organizations>"), "'free text'"),
    (("<file href", "<file source"), "file: href is missing"),
])
def test_the_rules_of_the_manifest_can_fail(package, spoil, complaint):
    text = package.read("imsmanifest.xml").decode()
    assert spoil[0] in text
    assert any(complaint in fault for fault in manifest_faults(text.replace(*spoil)))


def test_an_element_out_of_order_is_found(package):
    element = ET.fromstring(package.read("items/glass-reads-low_01.xml"))
    body = element.find(f"{NAMESPACE}itemBody")
    element.remove(body)
    element.append(body)
    assert any("wrong place" in fault for fault in faults(ET.tostring(element, "unicode")))


@pytest.mark.parametrize("arguments, complaint", [
    ((["glass-reads-low"], "s", 0), "allowed range is 1 to 50"),
    (([], "s", 1), "at least one question family"),
    ((["glass-reads-low"] * 2, "s", 1), "none of them twice"),
    ((["nothing"], "s", 1), "no question family “nothing”"),
])
def test_a_wish_that_cannot_be_met_is_a_sentence(arguments, complaint):
    with pytest.raises(InputError, match=complaint):
        qti_package(*arguments)


def test_the_command_writes_a_package_and_keeps_the_one_before(tmp_path, capsys):
    path = tmp_path / "water.zip"
    for secret in ("one", "two"):
        assert main(["qti", "glass-reads-low", "--secret", secret, "--variants", "2",
                     "--output", str(path)]) == 0
    assert zipfile.ZipFile(path).testzip() is None
    assert "2 variants of 1 question families are in" in capsys.readouterr().out
    assert len(list((tmp_path / "earlier").iterdir())) == 1
