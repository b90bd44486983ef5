"""How much of a plan's time its look-up tables take, on one core; the share is measured in one run.

Run it by hand: `python tests/benchmarks/bench_lookup.py`. It is a benchmark, no test: nothing fails.
"""

from pathlib import Path
from statistics import median
from time import process_time

from guide_gen.description.read import read_text
from guide_gen.planning.lookup import lookup
from guide_gen.planning.plan import plan
from guide_gen.planning.sizing import sizing

RUNS = 7


def seconds(call) -> float:
    """Median processor time of a call."""
    call()
    took = []
    for _ in range(RUNS):
        begin = process_time()
        call()
        took.append(process_time() - begin)
    return median(took)


def main() -> None:
    """Print the time of every demo's plan and the share of its tables."""
    for path in sorted(Path("content/builds").glob("*/build.yaml")):
        description = read_text(path.read_text(encoding="utf-8"), str(path))
        whole = sizing(description.build)
        tables = seconds(lambda whole=whole: [lookup(whole, fed) for fed in whole.toys.values()])
        all_of_it = seconds(lambda description=description: plan(description))
        print(f"{path.parent.name:16} plan {1000 * all_of_it:6.0f} ms, tables {tables / all_of_it:6.1%} of it")


if __name__ == "__main__":
    main()
