"""A document as one HTML page that needs nothing else, fit for a phone and for paper; every text is escaped."""

from collections.abc import Iterator
from html import escape

from fasten.report.forms.document import Document, Section, shown
from fasten.report.safe import safe

_STYLE = """
body{font:16px/1.4 sans-serif;margin:1em auto;max-width:70em;padding:0 .7em;color:#111;background:#fff}
h1{font-size:1.4em}h2{font-size:1.1em;margin:1.4em 0 .3em}
.wide{overflow-x:auto}table{border-collapse:collapse;width:100%}
th,td{border-bottom:1px solid #999;padding:.25em .6em .25em 0;text-align:left;vertical-align:top}
.figures{text-align:right;white-space:nowrap}
h3{font-size:1em;margin:1em 0 .2em}h2.page{border-top:3px solid #111;padding-top:.5em;margin-top:2em}
ul,ol{margin:.3em 0;padding-left:1.6em}svg{max-width:100%;height:auto}
.loud{border:4px solid #111;padding:0 .7em .3em;margin:1em 0;font-weight:bold}
.cards{display:grid;grid-template-columns:repeat(auto-fill,minmax(62mm,1fr))}
.card{border:1px dashed #111;padding:.5em .7em;break-inside:avoid}.card p{margin:.15em 0}
.name{font-size:1.2em;font-weight:bold}
@page{margin:12mm}
@media print{body{font-size:9pt;line-height:1.3;margin:0;max-width:none}
tr,li,svg,.loud,.drawn{break-inside:avoid}.wide{overflow:visible}h2,h3{break-after:avoid}
.page{break-before:page;clear:both}h2.page{border:0;margin-top:0;padding-top:0}
.drawn{float:right;width:88mm;margin:0 0 2mm 4mm}}
""".strip()


def document_html(document: Document) -> str:
    """The document as a whole page."""
    body = [f"<h1>{_text(document.title)}</h1>", *(f"<p>{_text(sentence)}</p>" for sentence in document.lead)]
    for section in document.sections:
        body += _section(section)
    return "\n".join(
        [
            "<!DOCTYPE html>", '<html lang="en">', "<head>", '<meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; style-src \'unsafe-inline\'">',
            f"<title>{_text(document.title)}</title>", f"<style>{_STYLE}</style>", "</head>", "<body>", *body,
            "</body>", "</html>", "",
        ]
    )  # fmt: skip


def _section(section: Section) -> Iterator[str]:
    """Heading and body: what is loud in a frame, a drawing beside the text where paper is wide enough."""
    tag, page = f"h{section.level}", " page" if section.page else ""
    around = "loud" if section.loud else "drawn" if section.svg is not None else ""
    yield from [f'<div class="{around}{page}">'] if around else []
    own = ' class="page"' if page and not around else ""
    yield f"<{tag}{own}>{_text(section.heading)}</{tag}>"
    yield from _body(shown(section))
    yield from ["</div>"] if around else []


def _body(section: Section) -> Iterator[str]:
    if section.svg is not None:
        yield f'<div class="wide">{section.svg()}</div>'
    elif section.drawing:
        yield f"<pre>{chr(10).join(map(_text, section.drawing))}</pre>"
    if section.cards:
        yield from _cards(section)
    elif section.rows:
        classes = [' class="figures"' if column.figures else "" for column in section.columns]
        heads = zip(classes, section.columns, strict=True)
        yield '<div class="wide"><table>'
        yield "<tr>" + "".join(f'<th scope="col"{mark}>{_text(column.title)}</th>' for mark, column in heads) + "</tr>"
        for row in section.rows:
            cells = zip(classes, row, strict=True)
            yield "<tr>" + "".join(f"<td{mark}>{_text(cell)}</td>" for mark, cell in cells) + "</tr>"
        yield "</table></div>"
    if section.notes:
        tag = "ol" if section.numbered else "ul"
        yield f"<{tag}>" + "".join(f"<li>{_text(note)}</li>" for note in section.notes) + f"</{tag}>"


def _cards(section: Section) -> Iterator[str]:
    """Each row on a card of its own with a line to cut along; a cell that is empty is left out."""
    yield '<div class="cards">'
    for first, *others in section.rows:
        cells = zip(section.columns[1:], others, strict=True)
        said = (f"<p><b>{_text(column.title)}</b> {_text(cell)}</p>" for column, cell in cells if cell)
        yield f'<div class="card"><p class="name">{_text(first)}</p>{"".join(said)}</div>'
    yield "</div>"


def _text(text: str) -> str:
    return escape(safe(text), quote=True)
