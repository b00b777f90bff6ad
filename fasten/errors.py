"""One error type for everything a person can put right: what is wrong, where, and what to do."""


class FastenError(Exception):
    """A problem in what the program was given, in one clear sentence.

    Attributes:
        what: what is wrong, naming the value.
        where: the field, file or row it was found in; empty where it is plain.
        fix: what to do about it; empty where nothing can be suggested.
        others: what else is wrong in the same text, each to be put right as well.
    """

    def __init__(self, what: str, *, where: str = "", fix: str = "") -> None:
        super().__init__(what)
        self.what = what
        self.where = where
        self.fix = fix
        self.others: tuple[FastenError, ...] = ()

    def __str__(self) -> str:
        head = f"{self.where}: {self.what}" if self.where else self.what
        return f"{head}; {self.fix}" if self.fix else head


class SizeError(FastenError):
    """A text that is no size that is wanted: `fix` gives any such size, and a field that knows better its own."""

    def such_as(self, example: str) -> FastenError:
        """The same with an example that fits the field."""
        return FastenError(self.what, where=self.where, fix=f"write {example}" if example else self.fix)


class CatalogError(FastenError):
    """A table file that cannot be used as it stands."""
