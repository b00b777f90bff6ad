"""How to write a size, in one sentence: shown where nothing was written, where nothing was found, and in the help."""

QUOTING = (
    'write a size, such as M6, M6x0.75, 1/4-20, no8, ST4.2, F, 9/64, "5.1 mm", "20 ga" or "grade 5"; '
    'the shell needs quotes round "#8" and round a " for inches, while no8 and 1/4in go without'
)
