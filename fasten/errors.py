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


class CatalogError(FastenError):
    """A table file that cannot be used as it stands."""
