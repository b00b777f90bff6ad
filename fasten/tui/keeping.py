"""Where jobs are kept: their files are opened, made and saved here, and nowhere else on the screen."""

from dataclasses import dataclass
from pathlib import Path

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.words import Job
from fasten.tui.desk import EMPTY, Desk


@dataclass
class _File:
    """A job's file and what it held when it was last read or written; no stamp before there is one."""

    path: Path
    stamp: object = None

    def save(self, job: Job) -> None:
        from fasten.job.storage import save_job

        self.path.parent.mkdir(parents=True, exist_ok=True)
        self.stamp = save_job(job, self.path, self.stamp).stamp  # type: ignore[arg-type]


@dataclass(frozen=True)
class Keeper:
    """The folder jobs are kept in."""

    folder: Path
    tables: Tables

    def open(self, path: Path) -> Desk:
        """The job of a file, its first mount point in hand; raises FastenError if it cannot be opened."""
        from fasten.job.storage import load_job

        loaded = load_job(path, self.tables)
        file = _File(loaded.path, loaded.stamp)
        at = len(loaded.value.mounts) - 1 if loaded.value.mounts else None
        return Desk(file.save, loaded.path, loaded.value, at, loaded.why if loaded.read_only else "", loaded.value)

    def new(self, path: Path | None = None) -> Desk:
        """A job with nothing in it; its file is made when there is something to save."""
        file = _File(path or self._free())
        return Desk(file.save, file.path, EMPTY, None, "", EMPTY)

    def copy(self, desk: Desk) -> None:
        """Save the job of a desk as a new file and go on with that one; raises FastenError if that cannot be."""
        file = _File(self._free())
        file.save(desk.job)
        desk.save_job, desk.path, desk.saved, desk.read_only = file.save, file.path, desk.job, ""

    def start(self, path: Path | None) -> Desk:
        """The job named, new where there is no such file; else the one changed last; else a new one."""
        if path is not None:
            return self.open(path) if path.exists() else self.new(path)
        paths = self.paths()
        if not paths:
            return self.new()
        try:
            return self.open(paths[0])
        except FastenError:
            return self.new()  # a broken file must not bar the way; opening it by name says what is wrong with it

    def paths(self) -> list[Path]:
        """The jobs there are, the one changed last first."""
        found = [path for path in self.folder.glob("*.toml") if path.is_file()]
        return sorted(found, key=lambda path: (-path.stat().st_mtime, path.name))

    def told(self, path: Path) -> str:
        """A job in a few words: the name of its file and, where it has one, its title."""
        import tomllib

        try:
            head = path.read_text(encoding="utf-8").partition("\n[[")[0]
            title = tomllib.loads(head).get("title", "")
        except (OSError, ValueError):
            return path.stem
        return f"{path.stem}: {title}" if title else path.stem

    def _free(self) -> Path:
        names = ("job.toml", *(f"job-{number}.toml" for number in range(2, 10_000)))
        return next(path for name in names if not (path := self.folder / name).exists())
