"""What `make` leaves behind for each setup."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from pathlib import Path

from jawcam.deliver import deliver
from jawcam.made import Made
from jawcam.proof.words import to_dict
from jawcam.show.pictures import picture_of, shown_of
from jawcam.show.save import save
from jawcam.show.sheet import setup_sheet, sheet_settings
from jawcam.show.sheet_given import Given

__all__ = ["given_of", "write_made"]


def write_made(made: Made, out: Path, others: Sequence[Made] = ()) -> tuple[Path, ...]:
    """Write a setup's program, backplot, setup sheet and figures into `out`, all or none of them.

    others: the other setups that share the program. Only a proven program is called FILE.nc; one
    that failed is kept as FILE.unproven.txt, to be looked at, and an older FILE.nc does not survive
    beside it. Raises InputError when `out` can't be written to.
    """
    name = made.setup.name
    good, bad = f"{made.file}.nc", f"{made.file}.unproven.txt"
    shown = shown_of(made.program, made.target, made.job)
    figure = picture_of(made.program, made.target, made.report, made.job, shown)
    given = given_of(made, others)
    sheet, settings = setup_sheet(given, shown), sheet_settings(given)
    figures = {
        "program": made.file,
        "setup": name,
        "post": made.dialect,
        "notes": list(made.notes),
        **to_dict(made.report, made.job.units),
    }
    files: dict[str, Callable[[Path], None]] = {
        good if made.proven else bad: _text(made.text),
        f"{name}.png": lambda path: save(figure, path),
        f"{name}.pdf": lambda path: save(sheet, path, settings),
        f"{name}.json": _text(json.dumps(figures, indent=2, ensure_ascii=False) + "\n"),
    }
    paths = deliver(out, files)
    (out / (bad if made.proven else good)).unlink(missing_ok=True)
    return paths


def given_of(made: Made, others: Sequence[Made]) -> Given:
    """What the setup sheet is made from."""
    return Given(
        made.job,
        made.setup,
        made.target,
        made.program,
        made.report,
        made.proven,
        made.file,
        made.dialect,
        made.offset_word,
        made.notes,
        tuple((other.target, other.report) for other in others),
    )


def _text(text: str) -> Callable[[Path], None]:
    def write(path: Path) -> None:
        path.write_bytes(text.encode("utf-8"))

    return write
