"""A button of one line that is no more than its words."""

from textual import widgets
from textual.content import Content


class Button(widgets.Button, inherit_css=False):
    """A button without the many looks that the usual one has, which take longer to read than all of our own."""

    DEFAULT_CSS = """
    Button {
        width: auto; height: auto; line-pad: 1; text-align: center; content-align: center middle; pointer: pointer;
        color: $ink; background: transparent; text-style: bold;
        &:hover { text-style: bold reverse; }
        &.-active { text-style: reverse; }
    }
    """


def on_button(text: str) -> Content:
    """The label of a button, which is seen to be one without colours too."""
    return Content(f"[ {text} ]")
