"""A page for paper that needs nothing else: prints on A4 and Letter alike, page of pages in its margin."""

from collections.abc import Iterable
from html import escape

from fasten.report.safe import safe

# No size in @page: the printer's paper counts. What is 186 mm wide fits both within these margins.
_STYLE = """
@page{margin:12mm 12mm 15mm;@bottom-left{content:FOOT;font:8pt sans-serif}
@bottom-right{content:"page " counter(page) " of " counter(pages);font:8pt sans-serif}}
*{box-sizing:border-box}html{font:8.5pt/1.25 system-ui,sans-serif;color:#000;background:#fff}
body{margin:0 auto;max-width:186mm}
header{display:grid;grid-template-columns:1fr auto;gap:1mm 6mm;align-items:end;border-bottom:1.2pt solid #000;
padding-bottom:1.5mm;margin-bottom:2.5mm}
h1{font-size:16pt;line-height:1.05;margin:0}h1 small{display:block;font-size:9pt;font-weight:400;margin-top:.8mm}
header dl{display:flex;gap:4mm;margin:0}header dt{font-size:7pt}
header dd{margin:0;border-bottom:.5pt solid #000;width:24mm;height:5mm}
h2{font-size:10pt;margin:3mm 0 1mm;break-after:avoid}
.stop{border:1.2pt solid #000;padding:1.2mm 2.5mm;margin:0 0 2.5mm}
ul{margin:0;padding:0;list-style:none}li{break-inside:avoid;margin:0 0 .7mm;padding-left:5mm;text-indent:-5mm}
.box{display:inline-block;width:3mm;height:3mm;border:.7pt solid #000;margin-right:2mm;vertical-align:-.3mm;
text-indent:0}
.done{background:#000;print-color-adjust:exact;-webkit-print-color-adjust:exact}
table{border-collapse:collapse;width:100%;table-layout:fixed}
thead{display:table-header-group}tr{break-inside:avoid}
thead th{font-size:7pt;font-weight:400;text-align:left;vertical-align:bottom;border-bottom:.9pt solid #000;
padding:0 1mm .6mm}
tbody td,tbody th{border-bottom:.35pt solid #888;padding:.8mm 1mm;text-align:left;
vertical-align:top;overflow-wrap:anywhere}
tbody th{font-weight:600}small{font-size:7pt}td small,tbody th small{display:block}
tr:has(+.open)>*{border-bottom:0}.open{break-before:avoid}.open td{font-size:7pt;padding-top:0}
.bag{font-weight:700;font-size:13pt;line-height:1;white-space:nowrap}.runs{font-size:7.6pt;line-height:1.15}
.runs td,.runs th{padding:.45mm 1mm}.runs .bag{font-size:9.5pt}.runs .tick{padding:.4mm .2mm}
.runs .tick .box{width:4.2mm;height:4.2mm}
.runs small{font-size:6.4pt}.tick{padding:.8mm .5mm}
.tick .box{display:block;width:5mm;height:5mm;margin:auto}
.two{columns:2;column-gap:6mm;font-size:8pt}.three{columns:3;column-gap:5mm;font-size:7.4pt;line-height:1.12}
.three li{margin-bottom:.35mm}
.three h2:first-child{margin-top:0}.three p{margin:0}section+section{break-before:page}
.write td,.write th{height:5.2mm;padding:.5mm 1mm;border-right:.35pt solid #bbb}.write .bag{font-size:10pt}
.sign{display:flex;gap:8mm;margin-top:4mm}.sign span{flex:1;border-top:.5pt solid #000;font-size:7pt;padding-top:.5mm}
@media screen{html{background:#ddd}section{background:#fff;padding:8mm;margin:6mm auto}}
""".strip()


def page(title: str, foot: str, sections: Iterable[str]) -> str:
    """A whole page of HTML of these sections, each on paper of its own; `foot` stands at the left of every foot."""
    style = _STYLE.replace("FOOT", f'"{_in_style(foot)}"')
    return "\n".join(
        [
            "<!DOCTYPE html>", '<html lang="en">', "<head>", '<meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; style-src \'unsafe-inline\'">',
            f"<title>{text(title)}</title>", f"<style>{style}</style>", "</head>", "<body>", *sections,
            "</body>", "</html>", "",
        ]
    )  # fmt: skip


def text(written: str) -> str:
    """What a person wrote, as HTML shows it."""
    return escape(safe(written), quote=True)


def _in_style(written: str) -> str:
    """A text within a string of a style: nothing in it can end the string or the style."""
    return "".join(char if char.isalnum() or char in " ·,.-" else f"\\{ord(char):x} " for char in safe(written))


def box(*, done: bool = False) -> str:
    """A box to tick, filled where it is ticked already."""
    return f'<span class="box{" done" if done else ""}"></span>'


def ticks(entries: Iterable[str], *, columns: str = "") -> str:
    """A list of what is ticked, each entry as HTML."""
    kind = f' class="{columns}"' if columns else ""
    return f"<ul{kind}>{''.join(f'<li>{entry}</li>' for entry in entries)}</ul>"


def table(heads: Iterable[tuple[str, float]], rows: Iterable[str], kind: str = "") -> str:
    """A table of rows of cells; each head is its text and its share of the width [%]. Its head is on every page."""
    heads = tuple(heads)
    widths = "".join(f'<col style="width:{share:g}%">' for _, share in heads)
    titles = "".join(f"<th>{text(title)}</th>" for title, _ in heads)
    body = "".join(f"<tr>{row}</tr>" for row in rows)
    of = f' class="{kind}"' if kind else ""
    return f"<table{of}><colgroup>{widths}</colgroup><thead><tr>{titles}</tr></thead><tbody>{body}</tbody></table>"
