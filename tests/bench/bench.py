"""How fast, as ratios in one run: `python tests/bench/bench.py`. Nothing here passes or fails; it prints what it saw.

Not here: tests. A machine's seconds mean little, so start-up is set beside a bare Typer program's.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from datetime import date
from pathlib import Path

DEMO = Path(__file__).parents[2] / "demo_questions"
BARE = "import typer; app = typer.Typer()\n@app.command()\ndef a(): 'Do a.'\n@app.command()\ndef b(): 'Do b.'\napp()"


def best(arguments: list[str], times: int = 5) -> float:
    """Seconds of the fastest of several runs."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        subprocess.run([sys.executable, *arguments], stdout=subprocess.DEVNULL, check=True)
        taken.append(time.perf_counter() - start)
    return min(taken)


def main() -> None:
    """Print each figure on a line."""
    run = "from answers.cli import main; main()"
    bare, ours = best(["-c", BARE, "--help"]), best(["-c", run, "--help"])
    print(f"trug --help           {ours:.3f} s, {ours / bare:.2f} of a bare Typer program's ({bare:.3f} s)")
    calc = best(["-c", run, "calc", "bulk_volume", "area_sqft=100", "depth_in=3"])
    print(f"trug calc             {calc:.3f} s, {calc / bare:.2f} of the same")
    print(rule_base())
    with tempfile.TemporaryDirectory() as folder:
        letter = Path(folder) / "one.jsonl"
        letter.write_text('{"body": "When do I put down crabgrass preventer on my lawn?", "place": "Lansing, MI"}\n')
        best(["-c", run, "answer", str(letter)], times=1)
        print(f"one letter, cold      {best(['-c', run, 'answer', str(letter)]):.3f} s (text model already fitted)")
    print(f"1,000 letters         {thousand():.1f} s on one core, read and drafted")


def rule_base() -> str:
    """The whole rule base from its compiled file, beside YAML, in one run."""
    import os

    from kb.load import load

    with tempfile.TemporaryDirectory() as folder:
        os.environ["TRUG_CACHE"] = folder
        taken = []
        for _ in range(4):
            start = time.perf_counter()
            load()
            taken.append(time.perf_counter() - start)
        del os.environ["TRUG_CACHE"]
    compiled = min(taken[1:])
    return (
        f"rule base, compiled   {compiled:.3f} s, {compiled / taken[0]:.2f} of reading it from YAML ({taken[0]:.2f} s)"
    )


def thousand() -> float:
    """Seconds to answer the demonstration letters over and over, until 1,000 are done."""
    from answers.answering import load_engine
    from answers.letters.reader import read_letters
    from answers.letters.split import questions

    engine = load_engine()
    start, done = time.perf_counter(), 0
    while done < 1000:
        for letter in read_letters([DEMO / "letters.mbox"]):
            done += 1
            for question in questions(letter):
                engine.answer(question, date(2026, 4, 20)).as_json()
    return (time.perf_counter() - start) * 1000 / done


if __name__ == "__main__":
    main()
