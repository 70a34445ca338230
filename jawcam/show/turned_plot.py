"""The backplot of a lathe program: what it does, on one page."""

from __future__ import annotations

from dataclasses import replace

from matplotlib.figure import Figure

from jawcam.cautions import ON_LATHE
from jawcam.errors import InputError
from jawcam.hold.turn_target import TurnTarget
from jawcam.proof.report import Finding, Report
from jawcam.reader.cuts import Program
from jawcam.show.amiss import amiss_of
from jawcam.show.backplot import nothing_to_draw
from jawcam.show.flags import flags_of, list_flags, list_height
from jawcam.show.key import draw_key
from jawcam.show.page import blank_page
from jawcam.show.panel import draw_panel
from jawcam.show.style import drawing_style
from jawcam.show.turned_key import MOST_TOOLS, draw_tools, turned_entries
from jawcam.show.turned_page import KEY_COLUMNS, arrange_turned
from jawcam.show.turned_picture import TurnPicture, turned_picture
from jawcam.show.turned_view import draw_half_section
from jawcam.show.turned_words import turned_facts
from jawcam.show.words import caution, file_name
from jawcam.units import Units

__all__ = ["turned_plot"]

MIRRORED = "the half below the axis is a mirror image; the jaws count as a full ring"
"""What the key has to add: what lies between two jaws is drawn, and proven, as if it were one."""


def turned_plot(
    program: Program,
    *,
    target: TurnTarget,
    report: Report | None = None,
    units: Units = Units.MM,
    rapid: float = 10000.0,
    picture: TurnPicture | None = None,
) -> Figure:
    """Draw a lathe program: half section, key, tools, words.

    units: those of the picture; rapid: the machine's rapid rate in mm/min; picture: what is drawn,
    if it was worked out already. The X of findings is a
    diameter, as in the program. Raises InputError if the program makes no move.
    """
    if not program.cuts:
        raise InputError(nothing_to_draw(program))
    with drawing_style():
        picture = picture or turned_picture(program, target, units)
        picture = replace(picture, amiss=amiss_of(program, target, report, units))
        flags, more = flags_of(report, units, _in_section)
        key = turned_entries(picture, flags)
        listed = list_height(flags, more)
        tools = min(len(picture.order), MOST_TOOLS) + (len(picture.order) > MOST_TOOLS)
        layout = arrange_turned(picture.content, len(key), tools, listed)
        figure, page = blank_page()
        draw_half_section(figure, page, layout.view, picture, flags)
        draw_key(page, layout.key, KEY_COLUMNS, key, more=MIRRORED)
        draw_tools(page, layout.tools, picture)
        if layout.findings:
            columns, drawn = layout.found_columns, "numbered as in the half section"
            list_flags(page, layout.findings, columns, flags, more, remark=drawn)
        title = target.title or file_name(program.name)
        rows = turned_facts(picture, report, rapid)
        alarm = report is not None and not report.ok
        last = caution(report, ON_LATHE, "clear of chuck and work")
        draw_panel(page, layout.words, title, rows, last, alarm=alarm)
    return figure


def _in_section(finding: Finding) -> tuple[float, float] | None:
    """Where the half section shows a finding: across and up."""
    return None if finding.x is None or finding.z is None else (finding.z, finding.x / 2)
