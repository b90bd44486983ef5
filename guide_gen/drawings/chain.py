"""Lay-outs of a load on a port, or straight on its supply."""

from guide_gen.drawings.placed import (
    OTHER_ZERO,
    ZERO,
    Upright,
    board_from_right,
    board_from_top,
    board_home,
    board_top,
    feed_across,
    feed_top,
    fuse_down,
    fuse_notes,
    load_end,
    load_height,
    load_upright,
    other_supply,
    raised,
    source,
)
from guide_gen.drawings.plot import Plot
from guide_gen.drawings.sheet import PITCH, Point
from guide_gen.model.circuit import PartKind

WIDE, NARROW = 720, 350
"""Widths of the two lay-outs, in CSS pixels."""


def chain_wide(plot: Plot) -> None:
    """Supply left, load right, the board between them under the feed."""
    sheet, board = plot.sheet, plot.one(PartKind.BOARD)
    load, right, board_left, board_right = plot.load, 124, 164, 414
    fuse_x = 172 if plot.row else 312  # at its block, without a wire
    if plot.suppressors:
        at = Upright(580, 638, 548, "end", 112, 656, "start", 62, "start")
    else:
        at = Upright(670, 670, 638, "end", 200, 0, "start", 0, "start")
    y = raised(plot, 12, right) + feed_top(plot, right, fuse_x, at.x, plot.plus_end)
    supply_bottom = source(plot, 12, right, y)
    notes = len(fuse_notes(plot, plot.fuse)) if plot.fuse else 0
    bottom = y + load_height(plot, at)
    if board:
        bottom = max(bottom, y + 34 + PITCH * notes - board_top(plot, board_left, board_right, 0))
    else:
        bottom = max(bottom, supply_bottom + 18)
    feed_across(plot, (right, y), fuse_x, plot.plus_end, *load_end(plot, at.x, y, upper=True))
    load_upright(plot, at, y, bottom)
    start = load_end(plot, at.x, bottom, upper=False)[::-1]
    if not board:
        back = plot.run(f"{load.id}:2", plot.zero, *start, (ZERO, bottom), (ZERO, supply_bottom))
        plot.label(back, (right + at.x) / 2 - 60, bottom + 16, 300, "middle")
        sheet.height = bottom + 28
        return
    back = plot.run(f"{load.id}:2", plot.port, *start, (board_right, bottom))
    plot.label(back, board_right + 10, bottom + 16, at.x - board_right - 4)
    zero = board_from_right(plot, board_left, board_right, bottom)
    other_zero, lowest = 0.0, supply_bottom
    if plot.other_supply:
        other_zero, lowest = other_supply(plot, plot.other_supply, 132, supply_bottom + 18)
    rail = max(zero[1] + 22, lowest + 20)
    home = board_home(plot, zero, rail, other_zero, alone=True)
    beside = OTHER_ZERO if plot.other_supply else ZERO
    gap = board_left - beside - 18
    fits = home is not None and rail - 15 - plot.rows(home, gap) * PITCH > lowest
    if fits:
        plot.label(home, beside + 10, rail - 15, gap, up=True)
    else:
        plot.label(home, OTHER_ZERO + 10, rail + 16, 300)
    sheet.height = rail + (12 if fits else 28)


def chain_narrow(plot: Plot) -> None:
    """One column, 0 V up the left side."""
    sheet, load, board, x, right = plot.sheet, plot.load, plot.one(PartKind.BOARD), 176, 112
    at = Upright(x, 122, x + 32, "start", 134, 104, "end", 68, "start")
    y = 36.0 + raised(plot, 8, right)
    supply_bottom = source(plot, 8, right, y)
    behind, begin = plot.plus, [(right, y), (x, y)]
    low = y + 20
    if plot.fuse:
        lead = plot.run(plot.plus, f"{plot.fuse.id}:1", (right, y), (x, y), (x, y + 32))
        plot.label(lead, right + 8, y - 16, NARROW - right - 14, up=True)
        low = fuse_down(plot, plot.fuse, x, y + 32, NARROW - x - 26)
        behind, begin = f"{plot.fuse.id}:2", [(x, low)]
    room = NARROW - x - 18
    top = max(low + plot.rows(plot.between(behind, plot.plus_end), room) * PITCH + 24, supply_bottom + 12)
    bottom = top + load_height(plot, at)
    feed = plot.run(behind, plot.plus_end, *begin, *load_end(plot, x, top, upper=True))
    plot.label(feed, x + 12, (low + top) / 2 - (plot.rows(feed, room) - 1) * PITCH / 2, room)
    load_upright(plot, at, top, bottom)
    start = load_end(plot, x, bottom, upper=False)[::-1]
    if not board:
        rail = bottom + 24
        back = plot.run(f"{load.id}:2", plot.zero, *start, (x, rail), (ZERO, rail), (ZERO, supply_bottom))
        plot.label(back, ZERO + 10, rail + 16, 300)
        sheet.height = rail + 28
        return
    port_y = bottom + plot.rows(plot.between(f"{load.id}:2", plot.port), room) * PITCH + 24
    back = plot.run(f"{load.id}:2", plot.port, *start, (x, port_y))
    plot.label(back, x + 12, bottom + 20, room)
    zero = board_from_top(plot, 48, NARROW - 8, x, port_y)
    _narrow_home(plot, zero, zero[1] + 22, supply_bottom)


def _narrow_home(plot: Plot, zero: Point, rail: float, supply_bottom: float) -> None:
    """The board's 0 V lead along the bottom of a narrow drawing, a second supply under it."""
    other_zero, low = 0.0, rail + 28
    if plot.other_supply:
        other_zero, low = other_supply(plot, plot.other_supply, 190, rail + 34)
        low += 10
    home = board_home(plot, zero, rail, other_zero, alone=True)
    plot.label(home, OTHER_ZERO + 10 if plot.other_supply else ZERO + 10, rail + 16, 290)
    plot.sheet.height = low
