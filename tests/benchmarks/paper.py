"""By hand: what is printed, measured on the paper. Wants `chromium`, `pdftocairo` and `pdfinfo` on the path.

Prints the work sheet of the example job and a template in tiles on A4 and Letter, counts the pages, and measures the
lines of 100 mm of the template: they may be off by two hundredths of a millimetre. The mount points with their bits,
tools and as-built table take two pages; cable, where the job has runs, one of its own.
"""

import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

MM_PER_POINT = 25.4 / 72
PAPERS = {"A4": "size:A4;", "Letter": "size:Letter;"}
WITHIN_MM = 0.02
PAGES = (3, 2)  # of the example job, and of it without its runs


def main() -> None:
    """Print, measure and say it; ends with 1 where something is off."""
    with tempfile.TemporaryDirectory() as folder:
        right = [_paper(Path(folder), name, size) for name, size in PAPERS.items()]
        sys.exit(0 if all(right) else 1)


def _paper(folder: Path, name: str, size: str) -> bool:
    fasten = (sys.executable, "-m", "fasten")
    job = folder / name / "job.toml"
    subprocess.run((*fasten, "demo", "--copy", str(job.parent)), check=True, capture_output=True)
    sheet = _sheet(fasten, job)
    job.write_text(_of_mounts(job.read_text(encoding="utf-8")), encoding="utf-8")
    of_mounts = _sheet(fasten, job)
    words = (*fasten, "template", str(job), "left amplifier", "--format", "html")
    tiles = subprocess.run(words, capture_output=True, text=True, check=True)
    pages, without = _pages(_pdf(folder, sheet, size)), _pages(_pdf(folder, of_mounts, size))
    drawn = _pdf(folder, tiles.stdout, size)
    lengths = [length for length in _lengths(drawn) if 99 < length < 101]
    off = max(abs(length - 100) for length in lengths)
    lines = f"{len(lengths)} lines of 100 mm, the worst off by {off:.4f} mm"
    print(f"{name}: work sheet {pages} pages, {without} without cable; {lines}")
    return (pages, without) == PAGES and bool(lengths) and off <= WITHIN_MM


def _sheet(fasten: tuple[str, ...], job: Path) -> str:
    words = (*fasten, "work", str(job), "--format", "html")
    return subprocess.run(words, capture_output=True, text=True, check=False).stdout


def _of_mounts(job: str) -> str:
    """A job without its cable."""
    tables = re.split(r"(?m)^(?=\[)|^(?=# end)", job)
    return "".join(one for one in tables if not one.startswith("[") or one.startswith("[[mount"))


def _pdf(folder: Path, html: str, size: str) -> Path:
    page, pdf = folder / "page.html", folder / "page.pdf"
    page.write_text(html.replace("@page{", f"@page{{{size}"), encoding="utf-8")
    words = ("chromium", "--headless=new", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer")
    subprocess.run((*words, f"--print-to-pdf={pdf}", page.as_uri()), check=True, capture_output=True)
    return pdf


def _pages(pdf: Path) -> int:
    said = subprocess.run(("pdfinfo", str(pdf)), check=True, capture_output=True, text=True).stdout
    return int(re.findall(r"Pages: *([0-9]+)", said)[0])


def _lengths(pdf: Path) -> Iterator[float]:
    """How long every straight line of the first page is [mm]."""
    svg = pdf.with_suffix(".svg")
    subprocess.run(("pdftocairo", "-svg", "-f", "1", "-l", "1", str(pdf), str(svg)), check=True, capture_output=True)
    text = svg.read_text(encoding="utf-8")
    for points, matrix in re.findall(r'd="(M [^"CZ]*)"[^>]*?transform="matrix\(([^)]*)\)"', text):
        a, b, c, d = (float(part) for part in matrix.split(",")[:4])
        for (x0, y0), (x1, y1) in pairwise(_points(points)):
            x, y = x1 - x0, y1 - y0
            yield ((a * x + c * y) ** 2 + (b * x + d * y) ** 2) ** 0.5 * MM_PER_POINT


def _points(path: str) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in re.findall(r"[ML] ([-0-9.]+) ([-0-9.]+)", path)]


if __name__ == "__main__":
    main()
