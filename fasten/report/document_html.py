"""A document as one HTML page that needs nothing else, fit for a phone and for paper; every text is escaped."""

from collections.abc import Iterator
from html import escape

from fasten.report.document import Document, Section, shown
from fasten.report.safe import safe

_STYLE = """
body{font:16px/1.4 sans-serif;margin:1em auto;max-width:70em;padding:0 .7em;color:#111;background:#fff}
h1{font-size:1.4em}h2{font-size:1.1em;margin:1.4em 0 .3em}
.wide{overflow-x:auto}table{border-collapse:collapse;width:100%}
th,td{border-bottom:1px solid #999;padding:.25em .6em .25em 0;text-align:left;vertical-align:top}
.figures{text-align:right;white-space:nowrap}
@media print{body{font-size:10pt;margin:0}tr{break-inside:avoid}.wide{overflow:visible}}
""".strip()


def document_html(document: Document) -> str:
    """The document as a whole page."""
    body = [f"<h1>{_text(document.title)}</h1>", *(f"<p>{_text(sentence)}</p>" for sentence in document.lead)]
    for section in document.sections:
        body += [f"<h2>{_text(section.heading)}</h2>", *_body(shown(section))]
    return "\n".join(
        [
            "<!DOCTYPE html>", '<html lang="en">', "<head>", '<meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; style-src \'unsafe-inline\'">',
            f"<title>{_text(document.title)}</title>", f"<style>{_STYLE}</style>", "</head>", "<body>", *body,
            "</body>", "</html>", "",
        ]
    )  # fmt: skip


def _body(section: Section) -> Iterator[str]:
    if section.rows:
        classes = [' class="figures"' if column.figures else "" for column in section.columns]
        heads = zip(classes, section.columns, strict=True)
        yield '<div class="wide"><table>'
        yield "<tr>" + "".join(f'<th scope="col"{mark}>{_text(column.title)}</th>' for mark, column in heads) + "</tr>"
        for row in section.rows:
            cells = zip(classes, row, strict=True)
            yield "<tr>" + "".join(f"<td{mark}>{_text(cell)}</td>" for mark, cell in cells) + "</tr>"
        yield "</table></div>"
    if section.notes:
        yield "<ul>" + "".join(f"<li>{_text(note)}</li>" for note in section.notes) + "</ul>"


def _text(text: str) -> str:
    return escape(safe(text), quote=True)
