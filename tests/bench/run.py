"""The benchmarks, in one table: `python tests/bench/run.py [--quick] [PART ...]`.

Every time stands beside that of a baseline measured in the same run, in turn with ours; what
counts is their ratio. Exit status 1 if one is over its aim. `--quick` only shows that all works:
its figures are rough.
"""

from __future__ import annotations

import argparse
import sys

import commands
import dialects
import offsets
import plotting
import proving
import reading
import roughing
from measuring import Row, rows_as_text

__all__ = ["PARTS", "main"]

PARTS = {
    "commands": commands.rows,
    "offsets": offsets.rows,
    "reading": reading.rows,
    "proving": proving.rows,
    "dialects": dialects.rows,
    "plotting": plotting.rows,
    "roughing": roughing.rows,
}


def main() -> int:
    """Run the command line -> exit status."""
    parser = argparse.ArgumentParser(description="Measure jawcam against its baselines.")
    parser.add_argument("--quick", action="store_true", help="few repeats: rough figures")
    parser.add_argument("parts", nargs="*", metavar="PART", help=f"of: {', '.join(PARTS)}")
    asked = parser.parse_args()
    unknown = set(asked.parts) - set(PARTS)
    if unknown:
        parser.error(f"no such part: {', '.join(sorted(unknown))}")
    rows: list[Row] = []
    for part in asked.parts or PARTS:
        print(f"measuring: {part}", file=sys.stderr)
        rows += PARTS[part](quick=asked.quick)
    print(rows_as_text(rows))
    return int(any(row.verdict == "over" for row in rows))


if __name__ == "__main__":
    sys.exit(main())
