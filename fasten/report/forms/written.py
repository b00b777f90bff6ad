"""A document in the format that is asked for; each format is loaded only when it is written."""

from fasten.report.forms.document import Document

FORMATS = ("text", "csv", "md", "html")


def written(document: Document, format_: str, width: int) -> str:
    """The document in one of FORMATS; `width` in columns is for text alone.

    Raises: ValueError for another format.
    """
    if format_ == "text":
        from fasten.report.forms.as_text import document_text

        return document_text(document, width)
    if format_ == "csv":
        from fasten.report.forms.as_csv import document_csv

        return document_csv(document)
    if format_ == "md":
        from fasten.report.forms.as_md import document_md

        return document_md(document)
    if format_ == "html":
        from fasten.report.forms.as_html import document_html

        return document_html(document)
    raise ValueError(f"format {format_!r} is none of {', '.join(FORMATS)}")
