"""Which ground lug of a job is whose, by what they are called."""

from collections import Counter

from fasten.job.store.job_toml import same_name


def lugs_by_name(waiting: list[str], lugs: list[str]) -> dict[str, str]:
    """The lugs that are called as something is: by a word that it alone has, then by any: ground left by left amp."""
    ends: dict[str, str] = {}
    words = {one: set(same_name(one).split()) for one in (*waiting, *lugs)}
    count = Counter(word for one in waiting for word in words[one])
    for most in (1, len(waiting)):
        for one in waiting:
            asked = {word for word in words[one] if count[word] <= most}
            left = (lug for lug in lugs if lug not in ends.values() and asked & words[lug])
            if one not in ends and (lug := next(left, None)) is not None:
                ends[one] = lug
    return ends
