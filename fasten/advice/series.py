"""Of two series of one thread the one that is used already: on the shelf, or at other mount points of the job.

What a series is preferred by is said once, in `ranking.among_rivals`. Another series never makes another method or
thread of an answer: it is chosen among what stands in for it.
"""

from fasten.advice import remark
from fasten.advice.advise import method_of
from fasten.advice.owned import Owned
from fasten.advice.parts import series_of
from fasten.advice.ranking import Place, among_rivals, order, rivals, score
from fasten.advice.trial import proposals
from fasten.advice.work import answer
from fasten.catalog.tables import Tables
from fasten.model import Advice, Answer, MountPoint, Proposal
from fasten.model.line import of_one_size
from fasten.record import replace


def first_in_series(advice: Advice, used: frozenset[str], tables: Tables, owned: Owned | None = None) -> Advice:
    """The advice with its first answer in a series that is used already, where that wins."""
    if not advice.answers:
        return advice
    first, *others = advice.answers
    return replace(advice, answers=(in_series(first, advice.mount, used, tables, owned), *others))


def in_series(
    first: Answer, mount: MountPoint, used: frozenset[str], tables: Tables, owned: Owned | None = None
) -> Answer:
    """The answer in a series that is used already, by its id, where that wins; else the answer as it is."""
    method = method_of(first.method)
    if method is None or not has_rivals(first.proposal, used):
        return first

    def place(one: Proposal) -> Place:
        standing = order(score(one, mount, tables, owned), one)
        return among_rivals(standing, one, mount, tables, owned, used)

    found = proposals(method, mount, tables, owned)
    offered = (one for one in found if _stands_in(one, first.proposal, used))
    best = min((first.proposal, *offered), key=place)
    if best is first.proposal:
        return first
    other = answer(first.rank, score(best, mount, tables, owned), best, mount, tables)
    return replace(other, remarks=(*first.remarks, remark.as_in_job(first.title)))


def has_rivals(proposal: Proposal, used: frozenset[str]) -> bool:
    """Whether another series of its part and thread is used, and not its own."""
    own = series_of(proposal.joint)
    return own is not None and own not in used and any(of_one_size(own, other) for other in used)


def _stands_in(other: Proposal, first: Proposal, used: frozenset[str]) -> bool:
    return series_of(other.joint) in used and rivals(other.joint) == rivals(first.joint)
