"""What tests of the screen find cheaper than Textual does is what Textual finds."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from built.few import sample
from textual import _callback
from textual.css.match import _check_selectors
from textual.css.stylesheet import Stylesheet
from textual.dom import DOMNode
from textual.events import Blur, Focus, Idle, Key, Mount, Resize
from textual.geometry import Size
from textual.message import Message
from textual.message_pump import MessagePump
from textual.pilot import Pilot
from textual.widgets import Input

from . import cheaper
from .pilot import AMPLIFIER, app_of, do, drive, say

MESSAGES: tuple[Message, ...] = (
    Key("a", "a"), Focus(), Blur(), Idle(), Mount(), Resize(Size(1, 1), Size(1, 1)), Input.Changed(Input(), "a"),
)  # fmt: skip


def _one(_: int) -> None: ...
def _many(_: int, *rest: int, named: int, **more: int) -> None: ...


class _Called:
    def __call__(self, _: int) -> None: ...


def _handlers(by: Callable[..., Any], node: MessagePump, message: Message) -> list[tuple[type, Any]]:
    return [(of, method.__func__) for of, method in by(node, message.handler_name, message)]


def _look_at_rules(nodes: list[DOMNode], sheet: Stylesheet) -> None:
    selected = set()
    for node in nodes:
        path = node.css_path_nodes
        for selectors in sample([some.selectors for rule in sheet.rules for some in rule.selector_set], 500):
            found = cheaper._is_matched(selectors, path)
            assert found == _check_selectors(selectors, path), (selectors, node)
            selected.add((found, len(selectors) > 1))
        had = dict(node.styles.base._rules)
        cheaper._replace(node, node.styles.base.get_rules())
        assert node.styles.base._rules == had, "the rules that a node has change nothing"
    assert len(selected) == 4, "some are selected and some not, by one selector and by several"


@pytest.mark.slow
def test_rules_and_handlers_are_those_that_textual_finds(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "b", "r", "m")
        app = app_of(pilot)
        nodes = [app, *app.screen.walk_children(with_self=True)]
        for node in nodes:
            for message in MESSAGES:
                found = _handlers(cheaper._handlers_of, node, message)
                assert found == _handlers(cheaper._handlers, node, message), (node, message)
        _look_at_rules(sample(nodes, 40), app.stylesheet)  # type: ignore[arg-type]
        assert any(cheaper._known.values())

    drive((120, 40), told, tmp_path)


FUNCTIONS = {
    "one": _one, "many": _many, "lambda": lambda: None, "partial": partial(_many, 1), "wrapped": cheaper.cheaper,
    "object": _Called(), "built in": print,
}  # fmt: skip


@pytest.mark.parametrize("function", FUNCTIONS.values(), ids=FUNCTIONS)
def test_the_parameters_of_a_function_are_counted_as_by_its_signature(function: Callable[..., Any]) -> None:
    try:
        counted = _callback._count_parameters(function)
    except ValueError:
        with pytest.raises(ValueError, match="signature"):
            cheaper._counted(function)
    else:
        assert cheaper._counted(function) == counted


def test_a_message_is_stopped_before_the_handlers_of_what_a_class_is_made_of() -> None:
    """As by `prevent_default`, and whatever a test puts in place of a handler is found by the next screen."""
    message = Key("a", "a")
    found = cheaper._handlers_of(Input(), message.handler_name, message)
    of, _ = next(found)
    message.prevent_default()
    assert of is Input
    assert list(found) == []
