"""Turn a ranked proposal into work: title, steps, tools, consumables and cautions, from the templates of its method."""

from fasten.advice.blanks import Filled
from fasten.advice.cautions import cautions_of
from fasten.advice.conditions import Holding
from fasten.advice.needs import needs_of
from fasten.advice.ranking import method_words, size
from fasten.advice.steps import steps_of
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.model import Answer, MountPoint, Proposal, Score
from fasten.model.kinds import Titled
from fasten.record import replace


def answer(rank: int, score: Score, proposal: Proposal, mount: MountPoint, tables: Tables) -> Answer:
    """The proposal as work: title, steps, tools, consumables and cautions."""
    proposal = _measured(proposal, tables)
    held, filled = Holding(proposal, mount, tables), Filled(proposal, mount, tables)
    tools, consumables = needs_of(proposal, held, filled, tables)
    return Answer(
        rank=rank, method=proposal.method, title=title_of(proposal, tables), proposal=proposal, score=score,
        steps=steps_of(proposal.method, held, filled, tables), tools=tools, consumables=consumables,
        cautions=cautions_of(proposal.method, held, filled, tables),
    )  # fmt: skip


def _measured(proposal: Proposal, tables: Tables) -> Proposal:
    """The proposal with the tool that reaches down to its torque: below what wrenches measure, a screwdriver."""
    torque = proposal.torque
    if torque is None or torque.target_nm >= rule(tables, Rules.TORQUE_SCREWDRIVER_BELOW).value:
        return proposal
    return replace(proposal, torque=replace(torque, tool="torque_screwdriver"))


def title_of(proposal: Proposal, tables: Tables) -> str:
    """What a proposal is called: thread, method and series."""
    receiver, screw = proposal.joint.receiver, proposal.joint.screw
    title = method_words(tables, proposal.method).title
    if proposal.method == "factory_thread":
        return f"{size(proposal.joint)} factory {'stud' if screw is None else 'thread'}"
    if screw is None and receiver is None:
        return f"{title}, {size(proposal.joint)}"
    if screw is None:
        return f"{size(proposal.joint)} {title}"
    if receiver is not None and receiver.kind.titled is Titled.WITH_SERIES:
        return f"{screw.thread} {title}, {receiver.series}"
    return f"{screw.thread} {title}"
