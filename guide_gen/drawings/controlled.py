"""Lay-outs of a load behind a speed controller whose isolated input a port switches."""

from collections.abc import Sequence

from guide_gen.drawings import symbols
from guide_gen.drawings.chain import NARROW
from guide_gen.drawings.placed import (
    BRANCH,
    OTHER_ZERO,
    ZERO,
    Upright,
    board_from_right,
    board_from_top,
    board_home,
    board_top,
    branch_x,
    details,
    feed_across,
    feed_top,
    fuse_down,
    fuse_notes,
    load_end,
    load_height,
    load_upright,
    other_supply,
    part_block,
    raised,
    source,
)
from guide_gen.drawings.plot import Plot
from guide_gen.drawings.sheet import PITCH, RING, SMALL, Point, block_of
from guide_gen.model.circuit import PartKind, Wire

WIDE = 740
"""Width of the wide lay-out, in CSS pixels."""


def controlled_wide(plot: Plot) -> None:
    """Supply left with the board under it, the controller in the middle, the load to its right."""
    sheet, box, right, fuse_x = plot.sheet, plot.controller.id, 116, 228
    shift = 14 if plot.port_fuse else 0
    board_left, board_right = 60, 278 if plot.port_fuse else 212
    left, edge = 336 + shift, 506 + shift
    plus_x = left + 94
    at = _load_place(plot, edge, 612 + shift / 2)
    y = raised(plot, 12, right) + feed_top(plot, right, fuse_x, plus_x, f"{box}:+")

    supply_bottom = source(plot, 12, right, y)
    begin, own_low = signal_start(plot, branch_x(plot, right, fuse_x), y, 104)
    other_zero, lowest = 0.0, supply_bottom
    if plot.other_supply:  # clear of an input's fuse that hangs close to a block
        under = own_low + 12 if plot.row and plot.signal_fuse and not plot.fuse else 0.0
        other_zero, lowest = other_supply(plot, plot.other_supply, 132, max(supply_bottom + 16, under))
    if plot.row:  # a block is lower than a supply: the fuse's words and the controller need the room
        own_low = max(own_low, y + max(56, PITCH * (2 + len(fuse_notes(plot, plot.fuse)) if plot.fuse else 0)))
    above = -board_top(plot, board_left, board_right, 0)
    input_above = max(76.0, above + 14)
    port_y = max(lowest + 14 + above, own_low + 48 + input_above)
    input_y, load_top = port_y - input_above, port_y - input_above - 46
    load_bottom = load_top + load_height(plot, at)
    top = load_top - 40
    _, text_low = _inside(plot, left + 60, top + 40, edge - left - 60 - 36)
    low = max(load_bottom + 36, port_y + 36, text_low + 20)

    feed_across(plot, (right, y), fuse_x, f"{box}:+", (plus_x, y), (plus_x, top))
    zero = board_from_right(plot, board_left, board_right, port_y)
    sheet.box(left, top, edge, low, dashed=True)
    terminals(plot, {"+": (plus_x, top), "-": (plus_x, low), "IN+": (left, input_y), "IN-": (left, port_y),
                      "M+": (edge, load_top), "M-": (edge, load_bottom)})  # fmt: skip
    plus, minus = plus_x + 10, edge - 10
    names(plot, {"+": (plus, top + 13, "start"), "−": (plus, low - 13, "start"),
                  "IN+": (left + 10, input_y, "start"), "IN−": (left + 10, port_y, "start"),
                  "M+": (minus, load_top, "end"), "M−": (minus, load_bottom, "end")})  # fmt: skip
    _isolation(plot, left + 52, top, low, left, (input_y + port_y) / 2)

    signal = input_wire(plot, begin, (left, input_y))
    if begin[0] > right + 80 and not plot.signal_fuse:
        plot.label(signal, begin[0] - 10, input_y - 4, 92, "end", up=True)
    else:
        plot.label(signal, begin[0] + 12, input_y - 15, left - begin[0] - 20, up=True)
    back = plot.run(f"{box}:IN-", plot.port, (left, port_y), (board_right, port_y))
    plot.label(back, (left + board_right) / 2, port_y - 15, left - board_right - 10, "middle", up=True)
    _motor_wires(plot, at, edge, load_top, load_bottom)

    lead, main = plot.wire_at(f"{plot.board_id}:0V"), plot.wire_at(f"{box}:-")
    rail, lead_room, main_room = zero[1] + 20, 196, plus_x - 262
    last = max(rail + 16 * max(plot.rows(lead, lead_room), plot.rows(main, main_room)) + 14, low + 24)
    points = [(plus_x, low), (plus_x, last), (ZERO, last)]
    returns(plot, f"{box}:-", zero, rail, points, supply_bottom, other_zero)
    plot.label(lead, OTHER_ZERO + 10, rail + 15, lead_room)
    plot.label(main, plus_x - 12, last - 15, main_room, "end", up=True)
    sheet.height = last + 12


def _load_place(plot: Plot, edge: float, x: float) -> Upright:
    """Load and suppressor to the right of the controller's edge."""
    if not plot.suppressors:
        return Upright(660, 660, 628, "end", 628 - edge - 8, 0, "start", 0, "start")
    return Upright(x, x + 50, x - 30, "end", x - 30 - edge - 8, x + 66, "start", WIDE - x - 70, "start")


def _motor_wires(plot: Plot, at: Upright, edge: float, top: float, bottom: float) -> None:
    """From the controller's right edge to an upright load, and back."""
    box, load = plot.controller.id, plot.load.id
    there = plot.run(f"{box}:M+", plot.plus_end, (edge, top), *load_end(plot, at.x, top, upper=True))
    back = plot.run(f"{load}:2", f"{box}:M-", *load_end(plot, at.x, bottom, upper=False)[::-1], (edge, bottom))
    plot.label(there, edge + 10, top - 15, WIDE - edge - 16, up=True)
    plot.label(back, edge + 10, bottom + 16, WIDE - edge - 16)
    load_upright(plot, at, top, bottom)


def controlled_narrow(plot: Plot) -> None:
    """The controller under the feed; under it the board at the left and the load at the right."""
    sheet, box, right, y = plot.sheet, plot.controller.id, 112, 36.0 + raised(plot, 8, 112)
    feed_x, input_x, left, edge = 246, 132, 164, 330
    plus_motor, minus_motor, port_x = 224, 314, 146
    supply_bottom = source(plot, 8, right, y)

    # feed and input down to the controller
    feed_begin, input_begin, input_low = feed_down(plot, (right, y), feed_x, input_x)
    feed, signal = plot.wire_at(f"{box}:+"), plot.wire_at(f"{box}:IN+")
    feed_room, input_room = NARROW - feed_x - 16, feed_x - input_x - 22
    feed_low = feed_begin[-1][1]
    top = max(feed_low + plot.rows(feed, feed_room) * PITCH, input_low + plot.rows(signal, input_room) * PITCH) + 22
    plot.run(plot.behind_fuse, f"{box}:+", *feed_begin, (feed_x, top))
    plot.label(feed, feed_x + 12, feed_low + 18, feed_room)
    input_y, back_y = top + 34, top + 100
    input_wire(plot, input_begin, (input_x, input_begin[1]), (input_x, input_y), (left, input_y))
    plot.label(signal, input_x + 12, input_low + 16, input_room)

    # the controller
    symbol_y, text_low = _inside(plot, left + 60, top + 38, edge - left - 68)
    low = max(text_low + 32, back_y + 40)
    minus_y = symbol_y
    sheet.box(left, top, edge, low, dashed=True)
    terminals(plot, {"+": (feed_x, top), "-": (edge, minus_y), "IN+": (left, input_y), "IN-": (left, back_y),
                      "M+": (plus_motor, low), "M-": (minus_motor, low)})  # fmt: skip
    names(plot, {"+": (feed_x + 10, top + 13, "start"), "−": (edge - 10, minus_y, "end"),
                  "IN+": (left + 9, input_y, "start"), "IN−": (left + 9, back_y, "start"),
                  "M+": (plus_motor + 8, low - 14, "middle"), "M−": (minus_motor - 4, low - 14, "middle")})  # fmt: skip
    _isolation(plot, left + 50, top, low, left, (input_y + back_y) / 2)

    # board at the left, load at the right
    back = plot.wire_at(f"{box}:IN-")
    room = port_x - ZERO - 18
    port_y = max(back_y + plot.rows(back, room) * PITCH + 24, low + PITCH * 3 + 20)
    plot.run(f"{box}:IN-", plot.port, (left, back_y), (port_x, back_y), (port_x, port_y))
    plot.label(back, port_x - 10, back_y + 16, room, "end")
    zero = board_from_top(plot, 36, 186, port_x, port_y, text_left=True)
    load_low = _load_hanging(plot, plus_motor, minus_motor, low)

    # returns
    lead, main = plot.wire_at(f"{plot.board_id}:0V"), plot.wire_at(f"{box}:-")
    rail, lead_room, main_room = zero[1] + 20, 150, 130
    under = rail + plot.rows(lead, lead_room) * PITCH + 16
    other_zero = 0.0
    if plot.other_supply:
        other_zero, under = other_supply(plot, plot.other_supply, 190, under)
        under += 20
    last = max(under, load_low + plot.rows(main, main_room) * PITCH + 20)
    ends = [(edge, minus_y), (NARROW - 8, minus_y), (NARROW - 8, last), (ZERO, last)]
    returns(plot, f"{box}:-", zero, rail, ends, supply_bottom, other_zero)
    plot.label(lead, OTHER_ZERO + 10, rail + 16, lead_room)
    plot.label(main, NARROW - 18, last - 15, main_room, "end", up=True)
    sheet.height = last + 12


def feed_down(plot: Plot, start: Point, feed_x: float, input_x: float) -> tuple[list[Point], Point, float]:
    """Lead, fuse and the input's branch in a narrow drawing.

    Gives back the first points of the feed behind them, the first point of the input's wire, and the height above
    which that wire's label may not stand.
    """
    sheet, fuse, (x, y) = plot.sheet, plot.fuse, start
    branch = (input_x, y)
    if not fuse:
        sheet.joint(start, branch)
        begin = [branch, (feed_x, y)]
    else:
        first = f"{fuse.id}:1"
        if plot.branches_at(first):
            lead = plot.run(plot.plus, first, start, branch)
            sheet.joint(branch, (feed_x, y), (feed_x, y + 32))
        else:
            lead = plot.run(plot.plus, first, start, (feed_x, y), (feed_x, y + 32))
        plot.label(lead, x + 8, y - 16, NARROW - x - 14, up=True)
        low = fuse_down(plot, fuse, feed_x, y + 32, NARROW - feed_x - 24)
        begin = [(feed_x, low)]
        if plot.branches_at(f"{fuse.id}:2"):
            branch = (feed_x, low + BRANCH)
            sheet.joint((feed_x, low), branch)
            begin = [branch]
    sheet.dot(*branch)
    if not plot.signal_fuse:
        return begin, branch, branch[1]
    own_y = branch[1] + 32
    sheet.joint(branch, (input_x, branch[1]), (input_x, own_y))
    low = fuse_down(plot, plot.signal_fuse, input_x, own_y, feed_x - input_x - 36)
    return begin, (input_x, low), low


def signal_start(plot: Plot, x: float, y: float, room: float) -> tuple[Point, float]:
    """Where the wire of input or coil begins in a wide drawing: at the feed or under its own fuse; how low that is."""
    if not plot.signal_fuse:
        return (x, y), y
    notes = len(fuse_notes(plot, plot.fuse)) if plot.fuse else 0
    start = y + 24 + PITCH * notes
    plot.sheet.joint((x, y), (x, start))
    low = fuse_down(plot, plot.signal_fuse, x, start, room)
    return (x, low), low


def input_wire(plot: Plot, *points: Point) -> Wire | None:
    """The wire to the controller's input; one corner is put in where only the ends are given."""
    source = f"{plot.signal_fuse.id}:2" if plot.signal_fuse else plot.branch
    if len(points) == 2:
        points = (points[0], (points[0][0], points[1][1]), points[1])
    return plot.run(source, plot.signal_plus, *points)


def terminals(plot: Plot, places: dict[str, Point]) -> None:
    """The terminals of the box between port and load."""
    assert plot.box is not None
    for name, (x, y) in places.items():
        plot.sheet.terminal(f"{plot.box.id}:{name}", x, y)


def names(plot: Plot, places: dict[str, tuple[float, float, str]]) -> None:
    """Names beside a box's terminals: x, middle, anchor."""
    for words, (x, y, side) in places.items():
        plot.sheet.text(words, x, y, SMALL, side)


def _isolation(plot: Plot, x: float, top: float, low: float, left: float, y: float) -> None:
    """The dashed line between the controller's input and the rest."""
    plot.sheet.stroke((x, top + 8), (x, low - 8), line=1, dashed=True)
    plot.sheet.text("isolated", (left + x) / 2, y, SMALL, "middle")


def _inside(plot: Plot, x: float, y: float, limit: float) -> tuple[float, float]:
    """The controller's text and the trimmer in it; gives back the trimmer's middle and the lower edge of all."""
    sheet, box, trimmer = plot.sheet, plot.controller, plot.one(PartKind.TRIMMER)
    beside = box.name or box.what.value
    block = block_of(box, limit, beside=beside, below=details(box, beside=beside))
    sheet.block(block, x, y)
    low = y + block.height
    if not trimmer:
        return low, low
    sheet.trimmer(x + 24, low + 14)
    text = block_of(trimmer, limit, beside=trimmer.value, below=trimmer.notes)
    sheet.block(text, x, low + 42)
    return low + 14, low + 34 + text.height


def _load_hanging(plot: Plot, plus_x: float, minus_x: float, y: float) -> float:
    """The load under the controller between the two motor wires; gives back the lower edge."""
    box, between, plus_room = plot.controller.id, minus_x - plus_x - 16, 64
    there, back = plot.wire_at(f"{box}:M+"), plot.wire_at(f"{box}:M-")
    low = y + max(plot.rows(there, plus_room), plot.rows(back, between)) * PITCH + 16
    plot.label(there, plus_x - 8, y + 18, plus_room, "end")
    plot.label(back, minus_x - 8, y + 18, between, "end")
    plus, minus, low = hanging(plot, plus_x, minus_x, low + 10, 134)
    plot.run(f"{box}:M+", plot.plus_end, (plus_x, y), *plus)
    plot.run(f"{plot.load.id}:2", f"{box}:M-", *minus[::-1], (minus_x, y))
    return low


def hanging(
    plot: Plot, plus_x: float, minus_x: float, y: float, limit: float
) -> tuple[list[Point], list[Point], float]:
    """A lying load between two uprights: the suppressor at y, under it a resistor on the plus side, under it the load.

    limit: width of the load's text. Gives back the last points of the plus wire and the first of the minus wire, from
    outside inwards, and the lower edge.
    """
    sheet, load, series = plot.sheet, plot.load, plot.series
    middle, between, low = (plus_x + minus_x) / 2, minus_x - plus_x - 16, y
    if plot.suppressors:
        low = _chain_lying(plot, plus_x, minus_x, y, between)
    start = low + 10
    if series:
        text = part_block(series, between - 6)
        sheet.block(text, plus_x + 14, start + 12)
        low = start + max(44.0, text.height + 8)
    machine_y = low + 34
    upper, lower = (plus_x + 14, machine_y), (minus_x - 14, machine_y)
    plus, minus = [(plus_x, y)], [(minus_x, y)]
    inwards = [(plus_x, machine_y), upper]
    if series:
        sheet.terminal(f"{series.id}:1", plus_x, start)
        symbols.small(sheet, series, "1", (plus_x, start + RING), (plus_x, start + 40))
        sheet.joint((plus_x, start), (plus_x, start + RING))
        sheet.joint((plus_x, start + 40), *inwards)
        inwards = [(plus_x, start)]
    if plot.suppressors:
        sheet.joint((plus_x, y), *inwards)
        sheet.joint((minus_x, y), (minus_x, machine_y), lower)
        sheet.dot(plus_x, y)
        sheet.dot(minus_x, y)
    else:
        plus, minus = inwards, [(minus_x, machine_y), lower]
    symbols.machine(sheet, load, upper, lower)
    sheet.text("1", upper[0] + 1, machine_y - 14, SMALL, "middle")
    sheet.text("2", lower[0], machine_y - 14, SMALL, "middle")
    text = part_block(load, limit)
    sheet.block(text, middle, machine_y + 36, "middle")
    return plus, minus, machine_y + 28 + text.height


def _chain_lying(plot: Plot, plus_x: float, minus_x: float, y: float, limit: float) -> float:
    """What lies across the load, side by side, its text below; gives back the lower edge."""
    sheet, chain = plot.sheet, plot.suppressors
    step, low = (minus_x - plus_x) / len(chain), y + 26
    for place, one in enumerate(chain):
        symbols.small(sheet, one.part, one.plus, (plus_x + place * step, y), (plus_x + (place + 1) * step, y))
        text = part_block(one.part, limit)
        sheet.block(text, (plus_x + minus_x) / 2, low, "middle")
        low += text.height
    return low - 6


def returns(
    plot: Plot,
    minus: str,
    zero: Point,
    rail: float,
    points: Sequence[Point],
    supply_bottom: float,
    other_zero: float,
) -> None:
    """The board's 0 V lead, and the return from terminal `minus` along `points` to the line of the feeding supply."""
    sheet, home = plot.sheet, plot.zero
    board_home(plot, zero, rail, other_zero, alone=plot.row is not None)
    if plot.row or not plot.board_goes_home:  # the two leads do not meet at the feeding supply
        plot.run(minus, home, *points, (ZERO, supply_bottom))
        return
    plot.run(minus, home, *points, (ZERO, rail))
    sheet.dot(ZERO, rail)
    sheet.joint((ZERO, rail), (ZERO, supply_bottom))
