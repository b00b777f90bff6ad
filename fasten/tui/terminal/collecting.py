"""Looking for objects that have gone, at times of our own: where the collector comes by itself, a key waits for it."""

import gc

_MANY = 1_000  # objects made in a second, of which a screen that nobody types at makes fewer


def collect() -> None:
    """Called every second: look among the youngest where something is typed, and in a quiet second among older ones."""
    young, rounds, older_rounds = gc.get_count()
    if young > _MANY:
        gc.collect(0)
    elif older_rounds > gc.get_threshold()[2]:
        gc.collect()
    elif rounds:
        gc.collect(1)
