"""Whether a method bears the removals of ten years, those for what lies under it among them."""

from fasten.catalog.opened import times_of
from fasten.catalog.practice import METHOD_WORDS
from fasten.catalog.tables import Tables
from fasten.model import Check, Input, MountPoint
from fasten.proof.checks import at_most, waits

REMOVALS_HOLD = "removals"


def removals_hold(method: str, mount: MountPoint, tables: Tables) -> Check:
    """The removals against what a method is rated for; open where it is not known how often all under it comes off."""
    words, wanted = tables.need(METHOD_WORDS, method), times_of(mount, tables)
    inputs = [Input("removals in ten years", wanted.once, "-"), Input("rated", words.rated, "-")]
    if len(mount.opens) > 1:
        inputs.append(Input("at most, were no visit shared", wanted.most, "-"))
    title, formula = "Removals in ten years", "wanted <= rated"
    sources = (tables.source_id(METHOD_WORDS, words), *wanted.sources)
    if wanted.unsaid and wanted.once <= words.rated:
        needs = f"needs how often {' and '.join(wanted.unsaid)} comes off, which lies under it"
        return waits(REMOVALS_HOLD, title, "-", wanted.once, needs, tuple(inputs), formula, sources)
    return at_most(REMOVALS_HOLD, title, wanted.once, words.rated, "-", tuple(inputs), formula, sources)
