"""Text that means harm, and a job and a shelf that hold it wherever one can be; and what it makes of a page."""

from collections import Counter
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import Any
from xml.etree import ElementTree

import pytest
from built.few import sample
from markdown_it import MarkdownIt

from fasten.job.words import Job, Mount, Shelf, ShelfPart, Visit
from fasten.model.line import Part
from fasten.text.letters import is_text

PLAIN = "left amp"
# What a terminal obeys or hides; a file may not hold most of it.
HIDDEN = {
    "clear the screen": "a\x1b[2Jb",
    "link of a terminal": "\x1b]8;;http://x.example\x1b\\amp\x1b]8;;\x1b\\",
    "title of a terminal": "\x1b]0;amp\x07",
    "escapes of eight bits": "a\x9b31mb\x9d0;x\x9c",
    "backspaces": "amp\x08\x08\x7f",
    "carriage return": "amp\rpwned",
    "line feed": "amp\nfasten: all is well",
    "text turned round": "a\u202egnp.exe",
    "isolated text": "a\u2066b\u2069",
    "nothing to see": "a\u200bb\ufeffc\u2060",
    "joined": "a\u200db\u200cc",
    "lines of another kind": "a\u2028b\u2029c\x85",
    "tags nobody sees": "a\U000e0041",
    "a byte that is no text": "a\udc9bb",
}
# What is plain to a terminal and may stand in a file, and means something further on.
MARKED = {
    "bold": "[bold]amp[/bold]",
    "an action": "[@click=app.quit]amp[/]",
    "an end of nothing": "[/",
    "a script": "<script>alert(1)</script>",
    "an image": "\"'><img src=x onerror=alert(1)>",
    "an end of SVG": "]]></text></svg><script>x</script>",
    "an entity": "&lt;b&gt; &#60;",
    "a comment": "--><!-- amp",
    "bars": "a|b||c",
    "code": "`amp` ```",
    "a link": "[amp](javascript:alert(1)) <http://x.example>",
    "an image of Markdown": "![amp](http://x.example/a.png)",
    "a bare link": "http://x.example www.x.example amp@x.com x.com //x.com mailto:a@x.com",
    "emphasis": "**amp** _amp_ ~~amp~~ \\*",
    "a heading": "# amp",
    "a list": "- amp",
    "a rule": "---",
    "a formula": '=HYPERLINK("http://x.example","amp")',
    "a sum": "+1+1",
    "less": "-1",
    "at": "@SUM(A1)",
    "another program": "=cmd|' /C calc'!A0",
    "a wide formula": "＝1+1",
    "a formula in the next cell": 'amp";=1+1;"',
    "a formula in the next cell by spaces": "amp ; '+1",
    "places to fill": "{0} {what} %s $x ${x} {{7*7}}",
    "a path": "../../../amp",
    "a root": "/etc/amp",
    "a drive": "C:\\amp\\..\\x",
    "an option": "--force",
}
ALL = HIDDEN | MARKED
IN_FILES = ("a path", "a drive", "an option", "a script", "a formula")
TRIED = {name: ALL[name] for name in (*sample(list(HIDDEN), 8), *sample(list(MARKED), 14))}
hostile = pytest.mark.parametrize("text", TRIED.values(), ids=list(TRIED))
SAID = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "behind": "40mm", "edge": "30mm"}


def job_of(text: str) -> Job:
    """A job with this text wherever one can be: of three mount points one is answered, the others cannot be read."""
    mounts = (
        Mount(text, tuple(SAID.items()), text, visits=(Visit(text, text, text, text, text),)),
        Mount(f"{text} 2", (*SAID.items(), ("item-hole", text)), text),
        Mount(f"{text} 3", tuple((SAID | {"item": text}).items())),
    )
    return Job(text, text, text, mounts, (text,))


def shelf_of(text: str) -> Shelf:
    parts = (
        ShelfPart(Part("screw", "M5", "ISO 4762", "8.8", 16.0), 3, 5, 1.0, text),
        ShelfPart(Part("screw", "M5", text, text, 20.0), 30, None, None, text),
        ShelfPart(Part(text, text, text, text, None), 3, 5, 1.0, text),
    )
    return Shelf(text, text, text, parts, ("5 mm", text), ("drill", text), (text,))


def printable(page: str) -> None:
    """No character that a terminal obeys, hides or turns round; lines end as lines do."""
    assert all(is_text(char) or char == "\n" for char in page), f"hidden characters in {page!r}"


class Reader(HTMLParser):
    """Counts the elements of a page by the names of what is said of them, those of a drawing's words apart."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: Counter[tuple[str, ...]] = Counter()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert not any(name.startswith("on") or name in ("href", "src") for name, _ in attrs)
        if tag != "text":  # how many lines a text takes on a drawing depends on the text
            self.elements[(tag, *(name for name, _ in attrs))] += 1

    def handle_comment(self, data: str) -> None:
        self.elements[("comment",)] += 1


def elements_html(page: str) -> Counter[tuple[str, ...]]:
    reader = Reader()
    reader.feed(page)
    return reader.elements


def elements_md(page: str) -> Counter[str]:
    """The elements of a page, each kind counted, as a common reader of Markdown with tables and bare links has them."""
    tokens = MarkdownIt("gfm-like").parse(page)
    inner = [child for token in tokens for child in token.children or ()]
    return Counter(token.type for token in (*tokens, *inner) if token.type not in ("text", "text_special"))


def elements_svg(drawn: str) -> set[tuple[str, ...]]:
    return {(node.tag, *node.attrib) for node in ElementTree.fromstring(drawn).iter()}


def every_text(plain: Any) -> Iterator[str]:
    if isinstance(plain, str):
        yield plain
    elif isinstance(plain, list | dict):
        for entry in plain.values() if isinstance(plain, dict) else plain:
            yield from every_text(entry)
