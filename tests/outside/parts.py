"""What a print is to readers that speak it: the tree of its parts, by pypdf alone (ISO 32000-1, 14.7 and
14.8), and the metadata (XMP), by the XML reader of Python."""

import xml.etree.ElementTree as xml

import pypdf
from pypdf.generic import ContentStream

from tally import Facts

DC = "{http://purl.org/dc/elements/1.1/}"
RDF = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"
SHOWING = {b"Tj", b"TJ", b"'", b'"', b"Do", b"S", b"s", b"f", b"F", b"f*", b"B", b"b", b"sh"}


def checks(record, sheet, job):
    paths = {"print": job["file"](".pdf"), "card": job["file"]("-card.pdf")}
    paths |= {p["title"]: p["file"] for p in job.get("prints", [])}
    for title, path in paths.items():
        yield parts(title, pypdf.PdfReader(path, strict=True), sheet if title != "card" else None)


def parts(title, reader, sheet):
    facts = Facts(f"every part has its place in the tree, and figures their words: {title}")
    root = reader.trailer["/Root"]
    facts.add(root["/MarkInfo"]["/Marked"] is True or root["/MarkInfo"]["/Marked"] == True, "not marked")  # noqa: E712
    facts.add(root.get("/Lang") == "en", f"language {root.get('/Lang')}")
    facts.add(root["/ViewerPreferences"].get("/PickTrayByPDFSize") == True, "the paper's tray is not picked")  # noqa: E712
    tree = root["/StructTreeRoot"]
    elements = list(leaves(tree["/K"]))
    owners = {}
    for element in elements:
        kind = element["/S"]
        facts.add(kind in {"/H1", "/H2", "/P", "/Figure"}, f"an element {kind}")
        facts.add(kind != "/Figure" or len(str(element.get("/Alt", ""))) > 10, f"a figure without words: {element.get('/Alt')}")
        for spot in spots(reader, element):
            owners[spot] = element
    facts.add(elements[0]["/S"] in {"/H1", "/H2", "/P", "/Figure"}, "no first element")
    firsts = [min(spots(reader, e)) for e in elements]
    facts.add(firsts == sorted(firsts), "the tree is not in the order of the pages")
    parents = tree["/ParentTree"]["/Nums"]
    for number, page in enumerate(reader.pages):
        row = parents[2 * page["/StructParents"] + 1]
        for mcid, element in enumerate(row):
            facts.add(owners.get((number, mcid)) == element.get_object(), f"page {number + 1}, part {mcid}: another owner")
        seen = content(page, facts, number)
        facts.add(sorted(seen) == list(range(len(row))), f"page {number + 1}: parts {sorted(seen)} of {len(row)}")
    if sheet is not None:
        meta = xml.fromstring(root["/Metadata"].get_data())
        titles = [li.text for t in meta.iter(f"{DC}title") for li in t.iter(f"{RDF}li")]
        facts.add(titles == [reader.metadata.title], f"{titles} and {reader.metadata.title}")
    return facts.result()


def spots(reader, element):
    """Where the content of an element is: a number on its page, or a dictionary for each of several pages."""
    kids = element["/K"]
    if isinstance(kids, int):
        return [(reader.get_page_number(element["/Pg"].get_object()), int(kids))]
    return [(reader.get_page_number(kid["/Pg"].get_object()), int(kid["/MCID"])) for kid in kids]


def leaves(element):
    """Elements that hold content, in the order of the tree."""
    element = element.get_object()
    kids = element["/K"]
    if not isinstance(kids, list) or any("/MCID" in k for k in kids):
        yield element
    else:
        for kid in kids:
            yield from leaves(kid)


def content(page, facts, number):
    """Numbers of the parts of a page; whatever shows is in one, or is decoration."""
    seen, stack = set(), []
    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        if operator in (b"BDC", b"BMC"):
            tag = operands[0]
            inner = operands[1].get("/MCID") if operator == b"BDC" and hasattr(operands[1], "get") else None
            stack.append("part" if inner is not None else "decoration" if tag == "/Artifact" else "layer")
            if inner is not None:
                facts.add(inner not in seen, f"page {number + 1}: part {inner} twice")
                seen.add(int(inner))
        elif operator == b"EMC":
            stack.pop()
        elif operator in SHOWING:
            kinds = [k for k in stack if k != "layer"]
            facts.add(len(kinds) == 1, f"page {number + 1}: {operator} in {stack}")
    facts.add(not stack, f"page {number + 1}: {stack} is left open")
    return seen
