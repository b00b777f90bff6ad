"""A line of the hardware list: the part, and what it is found again by: keys and sizes, never words."""

from fasten.model.words import Word
from fasten.record import lean

_SPELLED = str.maketrans({" ": "_", "%": "%25", "/": "%2F", "=": "%3D"})


class Sort(Word):
    """What a line of the list is."""

    PART = "part"
    BIT = "bit"
    TOOL = "tool"
    CONSUMABLE = "consumable"


@lean
class LineId:
    """The id of a line: its sort, the key of what it is, and the sizes and series that tell it from others of that key.

    Files keep its `text`, such as `part:rivet_nut/M5/round_body/steel/12.5`.
    """

    sort: Sort
    key: str
    sizes: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """The stable form that goes into a file."""
        said = [word.translate(_SPELLED) or "-" for word in (self.key, *self.sizes)]
        while said[-1] == "-":
            said.pop()
        return f"{self.sort.value}:{'/'.join(said)}"


def words_of_line(text: str) -> tuple[str, ...]:
    """The key and sizes of the id of a line as they are said, without those that it has not."""
    words = (word for word in text.partition(":")[2].split("/") if word != "-")
    return tuple(_said(word) for word in words)


def _said(word: str) -> str:
    return word.replace("_", " ").replace("%3D", "=").replace("%2F", "/").replace("%25", "%")


def series_of_line(text: str) -> str:
    """Of the id of a part's line, or a tick of one, what names its series: part, size and series, and no length."""
    return "/".join(text.split("/")[:3])


def of_one_size(one: str, other: str) -> bool:
    """Whether two series are of the same part and size, and so stand in for each other."""
    return one.rpartition("/")[0] == other.rpartition("/")[0]


@lean
class Part:
    """A part to buy, by generic words: what it is, size, standard or series, grade, length; one spelling each.

    `kind` is such as screw, washer, nut, rivet nut, screw-in insert; `name` the standard or series (`ISO 15071`),
    `grade` the property class or material, empty where there is none; `length_mm` None where it has none.
    """

    kind: str
    size: str
    name: str
    grade: str
    length_mm: float | None

    def __lt__(self, other: "Part") -> bool:
        return self._order() < other._order()

    def _order(self) -> tuple[str, str, str, str, float | None]:
        return self.kind, self.size, self.name, self.grade, self.length_mm
