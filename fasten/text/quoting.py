"""How to write a size, in one sentence: shown where nothing was written, where nothing was found, and in the help.

What the shell needs besides concerns the command line alone: on the screen nothing is quoted.
"""

_SIZES = ("M6", "M6x0.75", "1/4-20", "no8", "ST4.2", "F", "9/64")
_WORDS = ("5.1 mm", "20 ga", "grade 5")  # the shell takes them for several


def _sentence(sizes: tuple[str, ...]) -> str:
    return f"write a size, such as {', '.join(sizes[:-1])} or {sizes[-1]}"


WRITING = _sentence((*_SIZES, *_WORDS))
QUOTING = (
    _sentence((*_SIZES, *(f'"{words}"' for words in _WORDS)))
    + '; the shell needs quotes round "#8" and round a " for inches, while no8 and 1/4in go without'
)
