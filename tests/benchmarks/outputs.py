"""What the commands answer, each into a file, to compare two versions of the program. Run by hand, in each version:

    python tests/benchmarks/outputs.py FOLDER

Then `diff -r` of the two folders: a change that is to change nothing leaves every byte as it was.
"""

import os
import shlex
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
AMPLIFIER = 'pick amplifier --removed yearly --mass 6kg --fixings 4 --pattern "rectangle 240x180" --item-thickness 3mm'
JOB, SHELF = "example/job.toml", "--shelf example/shelf.toml"
COMMANDS = (
    "look M6", "look M6 --json", 'look "5.1 mm"', "look no8", "look 1/4-20 --json", "look ST4.2", "look F",
    'look "20 ga"', 'look "grade 5"', "look 9/64", "look nonsense", "look M6x0.75 5mm",
    f'{AMPLIFIER} --onto "steel 0.8 mm" --item-hole 5.5mm --behind 40mm --reach one-side',
    f'{AMPLIFIER} --onto "steel 0.8 mm" --item-hole 5.5mm --behind 40mm --edge 40mm --json',
    f'{AMPLIFIER} --onto "steel 0.8 mm" --behind 9mm --json',
    f'{AMPLIFIER} --onto "aluminium 3 mm" --behind 40mm --edge 30mm --reach both-sides --json',
    f'{AMPLIFIER} --onto "MDF 18 mm" --edge 60mm --json',
    f'{AMPLIFIER} --onto "steel 0.8 mm" --between "foam 3 mm" --behind 40mm --hole-there 9mm --json',
    'pick crossover --onto "plywood 18 mm" --removed rarely --edge 60mm', 'pick trim-panel --onto "ABS 3 mm" --json',
    'pick trim-panel --onto "ABS 3 mm" --removed weekly --boss "8x14 mm" --json',
    'pick wire-clamp --onto "steel 0.8 mm" --removed rarely --run 2m --json',
    'pick ground-lug --onto "steel 0.8 mm" --removed rarely --ring M8 --cable "50 mm2" --current 200A --json',
    'pick speaker-adapter --onto "steel 0.7 mm" --removed yearly --panel door --json',
    'pick equipment-board --onto "steel 1 mm" --removed rarely --carries "amplifier 5 kg, signal-processor" --json',
    'pick enclosure --onto "steel floor" --removed rarely',
    'pick enclosure --onto "steel floor" --removed never --json',
    'pick amplifier --onto "steel 0.8 mm" --removed daily', "pick amplifier --mass 6", "pick", "--help",
    "demo", "demo --json", "demo --copy example", "demo --copy example",
    f"hardware {JOB}", f"hardware {JOB} {SHELF}", f"hardware {JOB} {SHELF} --json", f"hardware {JOB} --format csv",
    f"hardware {JOB} --format md", f"hardware {JOB} {SHELF} --format html",
    f"ready {JOB}", f"ready {JOB} {SHELF}", f"ready {JOB} {SHELF} --json",
    f"work {JOB}", f"work {JOB} {SHELF} --json", f"work {JOB} --format md", f"work {JOB} --format html",
    f'work {JOB} "left amplifier" "main ground" {SHELF}', f'work {JOB} "nowhere"',
    f'template {JOB} "left amplifier"', f'template {JOB} "main ground"',
    f'instead {JOB} "left amplifier" {SHELF}', f'instead {JOB} "left door adapter" {SHELF} --json',
    f"fewest {JOB} {SHELF}", f"fewest {JOB} --json --keep", f"ready {JOB} {SHELF} --json",
    f'built {JOB} "left amplifier" --hole "7.6 mm" --torque "1.5 N·m" --date 2024-02-03', f"work {JOB} --json",
    f'{AMPLIFIER} --onto "steel 0.8 mm" --behind 40mm --into-job new.toml --name "left amp"', "ready new.toml --json",
    f'{AMPLIFIER} --onto "steel 2 mm" --behind 30mm --into-job new.toml --name "right amp"', "hardware new.toml --json",
    f"{AMPLIFIER} --onto 0.8mm {SHELF} --json", "tables", "tables --json", "tables --check", "ready gone.toml",
)  # fmt: skip


def answers(folder: Path) -> None:
    """Run every command in turn in an empty place of its own, and keep what each says and every file at the end."""
    with tempfile.TemporaryDirectory() as place:
        env = {**os.environ, "HOME": place, "PYTHONPATH": str(ROOT), "COLUMNS": "80", "PYTHONHASHSEED": "1"}
        env |= {name: f"{place}/.{name}" for name in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME")}
        for number, command in enumerate(COMMANDS, 1):
            line = [sys.executable, "-m", "fasten", *shlex.split(command)]
            done = subprocess.run(line, cwd=place, env=env, capture_output=True, check=False)
            said = f"$ fasten {command}\n{done.returncode}\n".encode() + done.stdout + b"\nstderr:\n" + done.stderr
            (folder / f"{number:02}.txt").write_bytes(said.replace(str(ROOT).encode(), b"ROOT"))
        for path in sorted(Path(place).rglob("*.toml*")):
            (folder / str(path.relative_to(place)).replace("/", "-")).write_bytes(path.read_bytes())


if __name__ == "__main__":
    wanted = Path(sys.argv[1])
    wanted.mkdir(parents=True)
    answers(wanted.resolve())
