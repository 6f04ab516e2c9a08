"""A package of question families for a learning platform: items, a test, drawings, manifest."""

import io
import zipfile
from xml.etree import ElementTree as ET

from ..errors import InputError
from ..exercises import family, variant
from ..scene.schematics import schematic, schematic_names
from .qti_item import XSI, item, root, xml_text

PACKAGING = "http://www.imsglobal.org/xsd/imscp_v1p1"
PACKAGING_SCHEMA = "http://www.imsglobal.org/xsd/qti/qtiv2p1/qtiv2p1_imscpv1p2_v1p0.xsd"
MOST = 50
_STILL = (2026, 1, 1, 0, 0, 0)  # no clock in the file: the same choice gives the same bytes


def qti_package(family_ids, secret, variants=10, title="Water level exercises"):
    """Return a package in which each learner draws one of several variants of each family.

    Parameters
    ----------
    family_ids : sequence of str
        Families of the bank, in order.
    secret : str
        First part of the seed: another secret gives other numbers.
    variants : int
        How many variants of each family.
    title : str
        Of the test.

    Returns
    -------
    bytes
        A zip file.

    Raises
    ------
    InputError
        No such family, one named twice, or a number of variants out of range.

    Examples
    --------
    >>> content = qti_package(["glass-reads-low"], "secret", variants=2)
    >>> zipfile.ZipFile(io.BytesIO(content)).namelist()[:2]
    ['imsmanifest.xml', 'test.xml']
    """
    if not 1 <= variants <= MOST:
        raise InputError(f"The number of variants is {variants}; the allowed range is 1 to {MOST}.")
    if len(set(family_ids)) < len(family_ids) or not family_ids:
        raise InputError("Name at least one question family, and none of them twice.")
    pictures, sections, files = {}, [], {}
    for family_id in family_ids:
        one = family(family_id)
        picture = _picture(one.figure, pictures)
        refs = []
        for index in range(variants):
            name = f"{family_id}_{index + 1:02}"
            words = schematic(one.figure).words if picture else ""
            made = item(variant(family_id, secret, "qti", index + 1), name,
                        f"../{picture}" if picture else "", words)
            files[f"items/{name}.xml"] = xml_text(made)
            refs.append((name, f"items/{name}.xml", picture))
        sections.append((one, refs))
    files = {"imsmanifest.xml": xml_text(_manifest(sections)),
             "test.xml": xml_text(_test(title, sections)), **files, **pictures}
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(zipfile.ZipInfo(name, _STILL), content)
    return packed.getvalue()


def _picture(figure, pictures):
    """Put the drawing of a family among the files; return its path, empty for none."""
    if figure not in schematic_names():
        return ""
    path = f"pictures/{figure.replace(' ', '-')}.svg"
    pictures[path] = schematic(figure).svg
    return path


def _test(title, sections):
    """A test with one section for each family, of which each learner gets one variant."""
    test = root("assessmentTest", identifier="levelkit-test", title=title)
    total = ET.SubElement(test, "outcomeDeclaration", identifier="SCORE", cardinality="single",
                          baseType="float")
    ET.SubElement(ET.SubElement(total, "defaultValue"), "value").text = "0"
    part = ET.SubElement(test, "testPart", identifier="part", navigationMode="nonlinear",
                         submissionMode="individual")
    for number, (one, refs) in enumerate(sections, 1):
        section = ET.SubElement(part, "assessmentSection", identifier=f"section-{one.id}",
                                title=f"Question {number}", visible="true")
        ET.SubElement(section, "selection", select="1")
        for name, href, _ in refs:
            ET.SubElement(section, "assessmentItemRef", identifier=name, href=href)
    processing = ET.SubElement(test, "outcomeProcessing")
    rule = ET.SubElement(processing, "setOutcomeValue", identifier="SCORE")
    ET.SubElement(ET.SubElement(rule, "sum"), "testVariables", variableIdentifier="SCORE")
    return test


def _manifest(sections):
    manifest = ET.Element("manifest", {
        "xmlns": PACKAGING, "xmlns:xsi": XSI, "identifier": "levelkit-package",
        "xsi:schemaLocation": f"{PACKAGING} {PACKAGING_SCHEMA}"})
    metadata = ET.SubElement(manifest, "metadata")
    ET.SubElement(metadata, "schema").text = "QTIv2.1 Package"
    ET.SubElement(metadata, "schemaversion").text = "1.0.0"
    ET.SubElement(manifest, "organizations")
    resources = ET.SubElement(manifest, "resources")
    test = ET.SubElement(resources, "resource", identifier="test", type="imsqti_test_xmlv2p1",
                         href="test.xml")
    ET.SubElement(test, "file", href="test.xml")
    for name, href, picture in (ref for _, refs in sections for ref in refs):
        ET.SubElement(test, "dependency", identifierref=name)
        resource = ET.SubElement(resources, "resource", identifier=name,
                                 type="imsqti_item_xmlv2p1", href=href)
        for path in filter(None, (href, picture)):
            ET.SubElement(resource, "file", href=path)
    return manifest
