"""One check of an answer in JSON, its inputs by name: all that the recalculation may look at."""

from dataclasses import dataclass
from typing import Any

INLBF = 8.850745767  # inch-pounds in a newton metre: 1 / (4.4482216152605 N × 0.0254 m), exact definitions


@dataclass(frozen=True)
class Line:
    """A check: `stem` and `kind` are the two halves of its id."""

    raw: dict[str, Any]

    @property
    def stem(self) -> str:
        return str(self.raw["id"]).split(".", 1)[0]

    @property
    def kind(self) -> str:
        """The kind of load case; nothing for a check that asks no load."""
        return str(self.raw["id"]).partition(".")[2]

    @property
    def formula(self) -> str:
        return str(self.raw["formula"])

    @property
    def checked(self) -> bool:
        return bool(self.raw["status"] != "not_checked")

    def names(self) -> list[str]:
        return [entry["name"] for entry in self.raw["inputs"]]

    def all(self, start: str) -> list[float]:
        """Every input of this name, or else every one whose name begins so, in order."""
        exact = [entry["value"] for entry in self.raw["inputs"] if entry["name"] == start]
        return exact or [entry["value"] for entry in self.raw["inputs"] if entry["name"].startswith(start)]

    def one(self, *starts: str) -> float:
        """The one input that begins as one of these do."""
        found = [value for start in starts for value in self.all(start)]
        assert len(found) == 1, f"{self.raw['id']}: {len(found)} inputs called {starts} among {self.names()}"
        return found[0]

    def maybe(self, start: str, otherwise: float) -> float:
        """An input that may be left out, which then counts as nothing said."""
        return self.all(start)[0] if self.all(start) else otherwise

    def has(self, start: str) -> bool:
        return bool(self.all(start))
