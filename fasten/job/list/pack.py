"""Lines of a hardware list found by their ids, and ticked."""

from fasten.errors import FastenError
from fasten.job.list.lists import HardwareList
from fasten.job.list.ticks import Line, is_packed, lines_of, toggled, with_ticks
from fasten.job.words import Job
from fasten.text.shown import shown


def packed(
    job: Job, listed: HardwareList, wanted: list[str], *, is_packed_now: bool
) -> tuple[Job, tuple[Line, ...]]:  # fmt: skip
    """The job with these lines packed whole, or not at all, and the lines; raises FastenError if one is not there."""
    lines = tuple(find_line(text, listed) for text in wanted)
    for line in dict.fromkeys(lines):
        for _ in range(2):  # of a line that is packed in part all is packed first
            if is_packed_now is _is_packed(line, with_ticks(listed, job)):
                break
            job = toggled(job, line, listed)
    return job, lines


def find_line(text: str, listed: HardwareList) -> Line:
    """The line of this id, or of the only id that begins so; raises FastenError with the nearest ids."""
    ids = {line.id.text: line for line in lines_of(listed)}
    wanted = text.strip()
    if wanted in ids:
        return ids[wanted]
    begun = [line for id_, line in ids.items() if wanted and id_.startswith(wanted)]
    if len(begun) == 1:
        return begun[0]
    if begun:
        what = f"{len(begun)} lines begin with {shown(wanted)}"
        raise FastenError(what, where="line", fix=f"write all of one: {begun[0].id.text}")
    raise FastenError(f"the list has no line {shown(wanted)}", where="line", fix=_nearest(wanted, list(ids)))


def _nearest(text: str, ids: list[str]) -> str:
    from difflib import get_close_matches

    close = get_close_matches(text[:100], ids, n=2)
    return f"did you mean {' or '.join(close)}?" if close else "hardware --ids prints each line with its id"


def _is_packed(line: Line, listed: HardwareList) -> bool:
    return next(is_packed(one) for one in lines_of(listed) if one.id == line.id)
