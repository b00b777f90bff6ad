"""One short module a method: gates, sized candidates, failure modes that apply. `advisor.METHODS` lists them.

A module has a `NAME` and three functions: `gates(mount, tables) -> Refusal | None`, `joints(mount, tables)` yielding
candidates without a check, and `modes(mount, tables)`, the failure modes that apply. It never computes a load, a
torque, a score, a tool list or a sentence of advice.
"""
