"""What Textual works out over and over for every message and style, found cheaper for tests, and the same."""

from collections.abc import Awaitable, Callable, Iterator
from contextlib import ExitStack, contextmanager
from typing import Any
from unittest.mock import patch

from textual import _callback
from textual.css.match import _check_selectors
from textual.css.model import CombinatorType, Selector
from textual.css.styles import RulesMap
from textual.css.stylesheet import Stylesheet
from textual.dom import DOMNode
from textual.message import Message
from textual.message_pump import MessagePump

Handler = Callable[[Message], Awaitable[Any]]
Named = tuple[tuple[type, Any], ...]

_handlers, _replace, _matches = MessagePump._get_dispatch_methods, Stylesheet.replace_rules, _check_selectors
_count = _callback._count_parameters

_known: dict[tuple[object, str, object], Named | None] = {}


@contextmanager
def cheaper() -> Iterator[None]:
    """Have Textual do this for as long as it is driven; a method that a test replaces is found the next time."""
    _known.clear()
    with ExitStack() as stack:
        stack.enter_context(patch.object(MessagePump, "_get_dispatch_methods", _handlers_of))
        stack.enter_context(patch.object(Stylesheet, "replace_rules", staticmethod(_replaced)))
        stack.enter_context(patch("textual.css.stylesheet._check_selectors", _is_matched))
        stack.enter_context(patch.object(_callback, "_count_parameters", _counted))
        yield


def _handlers_of(pump: MessagePump, name: str, message: Message) -> Iterator[tuple[type, Handler]]:
    """The handlers of a message, looked for once for all pumps and messages of the same class."""
    key = type(pump), name, type(message)
    if key not in _known:
        _known[key] = _named(*key)
    named = _known[key]
    if named is None:
        yield from _handlers(pump, name, message)
        return
    for of, method in named:
        if message._no_default_action:
            return
        yield of, method.__get__(pump, of)


def _named(pump: type, name: str, message: type) -> Named | None:
    """What handles it by its name alone; None where one is declared by `on`, which depends on more than classes."""
    kinds = set(message.__mro__)
    if any(kinds & (of.__dict__.get("_decorated_handlers") or {}).keys() for of in pump.__mro__):
        return None
    found = ((of, of.__dict__.get(f"_{name}") or of.__dict__.get(name)) for of in pump.__mro__)
    return tuple((of, by) for of, by in found if by is not None and not getattr(by, "_textual_on", None))


def _replaced(node: DOMNode, rules: RulesMap, animate: bool = False) -> None:
    """Put rules in place of those of a node, where they are not those that it has."""
    if node.styles.base._rules != rules:
        _replace(node, rules, animate)
    elif not animate:
        node.notify_style_update()


def _is_matched(selectors: list[Selector], path: list[DOMNode]) -> bool:
    """Whether a node at the end of its path is selected; the last selector is of the node itself."""
    last = selectors[-1]
    if not last.check(path[-1]):
        return False
    return (len(selectors) == 1 and last.combinator == CombinatorType.DESCENDENT) or _matches(selectors, path)


def _counted(function: Callable[..., Any]) -> int:
    """How many parameters a function has; a plain one says so itself."""
    code = getattr(function, "__code__", None)
    if code is None or hasattr(function, "__wrapped__") or hasattr(function, "__signature__"):
        return _count(function)
    return int(code.co_argcount + code.co_kwonlyargcount + bool(code.co_flags & 4) + bool(code.co_flags & 8))
