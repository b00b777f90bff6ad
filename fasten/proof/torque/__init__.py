"""The torque window of a joint and what limits it."""
