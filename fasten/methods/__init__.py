"""One short module a method: gates, sized candidates, failure modes that apply. `advisor.METHODS` lists them.

A module has a `NAME` and four functions: `gates(mount, tables) -> Refusal | None`, `joints(mount, tables)` yielding
candidates without a check, `modes(mount, tables)`, the failure modes that apply, and `screw_end(joint, mount, tables)`,
what the end of a screw of another length must reach. It never computes a load, a torque, a score, a tool list or a
sentence of advice.
"""
