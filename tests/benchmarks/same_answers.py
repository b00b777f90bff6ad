"""Whether two versions give the same answers to questions at random, to the last figure. Run by hand:

    PYTHONPATH=OLD .venv/bin/python tests/benchmarks/same_answers.py FILE [questions]
    .venv/bin/python tests/benchmarks/same_answers.py FILE

Where FILE is not there, a digest of every answer is written to it; where it is, each is compared with it. OLD is a
folder with the version before, such as `git worktree add OLD HEAD~1` makes. A question is answered without changes and
with them, and every fourth on a shelf, of what some of its answers are made of. A thousand take a minute or two.
"""

import hashlib
import sys
from collections.abc import Iterator
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1]))
from recalculation.questions import any_question

from fasten.advice.advise import advise
from fasten.advice.parts import joint_parts
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.shelf.owned import Owned, owned_of
from fasten.job.words import Shelf, ShelfPart
from fasten.model import Advice
from fasten.question.read import read_question
from fasten.question.resolve import resolve

QUESTIONS = 2_000
TOOLS = ("rivet-nut setter", "rivet-nut mandrel M5", "rivet-nut mandrel M4", "insert driver M5", "rivet setter", "file")
BITS = ("1.7 mm", "3.2 mm", "4.2 mm", "5.1 mm", "6 mm", "6.5 mm", "7 mm", "8 mm", "9 mm", "11 mm")


def on_shelf(advice: Advice, chance: Random) -> Owned | None:
    """Some of what the answers are made of, some bits and some tools."""
    parts: dict[object, ShelfPart] = {}
    for answer in advice.answers:
        if chance.random() < 0.5:
            counted = joint_parts(answer.proposal.joint, builtin())
            parts |= {part: ShelfPart(part, each * advice.mount.fixings) for part, each in counted}
    bits, tools = (tuple(chance.sample(names, chance.randrange(len(names)))) for names in (BITS, TOOLS))
    return owned_of(Shelf("bench", "EUR", "", tuple(parts.values()), bits, tools, ()), builtin())


def answers(number: int) -> Iterator[Advice]:
    """What a question comes to, in each way it is asked; nothing where the question itself is refused."""
    advise.cache_clear()
    try:
        mount = resolve(read_question(any_question(number), builtin()), builtin())
    except FastenError:
        return
    yield (bare := advise(mount, builtin(), changes=False))
    yield advise(mount, builtin())
    if number % 4 == 0:
        yield advise(mount, builtin(), on_shelf(bare, Random(number)), changes=False)


def digest(number: int) -> str:
    """Of all that is known of the answers, with every digit of every figure."""
    return hashlib.sha256("\n".join(map(repr, answers(number))).encode()).hexdigest()[:16]


def main(file: Path, count: int) -> int:
    """Write the digests, or print the questions whose answers differ; 1 where any does."""
    if not file.exists():
        file.write_text("".join(f"{digest(number)}\n" for number in range(count)), encoding="ascii")
        return 0
    before = file.read_text(encoding="ascii").split()
    differ = [number for number, was in enumerate(before) if digest(number) != was]
    for number in differ:
        print(f"question {number}: {any_question(number)}")
    print(f"{len(before)} questions, {len(differ)} answered otherwise")
    return int(bool(differ))


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else QUESTIONS))
