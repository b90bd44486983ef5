"""Lay-outs of a load behind a relay: its contact switches the load's plus, a port switches its coil."""

from guide_gen.drawings import symbols
from guide_gen.drawings.chain import NARROW
from guide_gen.drawings.controlled import feed_down, hanging, input_wire, names, returns, signal_start, terminals
from guide_gen.drawings.placed import (
    OTHER_ZERO,
    ZERO,
    Upright,
    board_from_right,
    board_from_top,
    board_top,
    branch_x,
    chain_height,
    chain_upright,
    feed_across,
    feed_top,
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
from guide_gen.drawings.sheet import PITCH, RING, Point

WIDE = 740
"""Width of the wide lay-out, in CSS pixels."""


def relayed_wide(plot: Plot) -> None:
    """Supply left with the board under it, the relay in the middle with its coil to the left, the load to its right."""
    sheet, box, right, fuse_x = plot.sheet, plot.relay.id, 116, 228
    board_left, board_right = 60, 278 if plot.port_fuse else 212
    diode_x, left, coil_x, contact_x, edge = 352, 384, 420, 474, 504
    at = _load_place(plot, edge)
    y = raised(plot, 12, right) + feed_top(plot, right, fuse_x, contact_x, f"{box}:11")
    supply_bottom = source(plot, 12, right, y)
    begin, own_low = signal_start(plot, branch_x(plot, right, fuse_x), y, 104)
    begin_x = begin[0]
    other_zero, lowest = 0.0, supply_bottom
    if plot.other_supply:  # clear of a coil's fuse that hangs close to a block
        under = own_low + 12 if plot.signal_fuse and not plot.fuse else 0.0
        other_zero, lowest = other_supply(plot, plot.other_supply, 132, max(supply_bottom + 16, under))

    # the coil's wires and what lies across the coil
    signal, back = plot.wire_at(f"{box}:A1"), plot.wire_at(f"{box}:A2")
    notes = len(fuse_notes(plot, plot.fuse)) if plot.fuse else 0
    signal_room = left - begin_x - 18 if begin_x > fuse_x or plot.signal_fuse else left - begin_x - 120
    above = -board_top(plot, board_left, board_right, 0)
    text_limit = diode_x - 14 - (board_right + 12 if not plot.port_fuse else 196)
    coil_high = max(104.0, chain_height(plot.coil_suppressors, text_limit))
    under_fuse = y + 34 + PITCH * notes
    input_y = max(own_low + 26 + PITCH * plot.rows(signal, signal_room), under_fuse, lowest + 14 + above - coil_high)
    if plot.port_fuse:  # the board reaches under the words of the coil's suppressor
        coil_high = max(coil_high, chain_height(plot.coil_suppressors, text_limit) + above)
    port_y = input_y + coil_high
    middle = (input_y + port_y) / 2
    top, load_top = input_y - 24, max(middle + 36, port_y - 24)
    load_bottom = load_top + load_height(plot, at)
    low = max(port_y, load_top) + 26

    feed_across(plot, (right, y), fuse_x, f"{box}:11", (contact_x, y), (contact_x, top))
    sheet.box(left, top, edge, low, dashed=True)
    terminals(plot, {"11": (contact_x, top), "14": (edge, load_top), "A1": (left, input_y), "A2": (left, port_y)})
    names(plot, {"11": (contact_x + 8, top + 13, "start"), "14": (edge - 8, load_top + 12, "end"),
                 "A1": (left + 8, input_y - 11, "start"), "A2": (left + 8, port_y + 12, "start")})  # fmt: skip
    _inside(plot, left + RING, coil_x, contact_x, (input_y, port_y), (top + RING, load_top))
    sheet.stroke((contact_x, load_top), (edge - RING, load_top))
    sheet.block(part_block(plot.relay, 120), left, low + 16)

    _coil_wires(plot, begin, [(begin_x, input_y), (diode_x, input_y)], (left, input_y))
    plot.label(signal, begin_x + 12, input_y - 15, signal_room, up=True)
    _coil_return(plot, (left, port_y), [(diode_x, port_y), (board_right, port_y)])
    plot.label(back, board_right + 10, port_y + 16, diode_x - board_right - 10)
    text_low = port_y - (above if plot.port_fuse else 0)
    if plot.coil_suppressors:
        words_at = (diode_x - 14, "end", text_limit)
        chain_upright(sheet, plot.coil_suppressors, diode_x, input_y, port_y, words_at, text_low)

    there = plot.run(f"{box}:14", plot.plus_end, (edge, load_top), *load_end(plot, at.x, load_top, upper=True))
    plot.label(there, edge + 10, load_top - 15, WIDE - edge - 16, up=True)
    load_upright(plot, at, load_top, load_bottom)

    zero = board_from_right(plot, board_left, board_right, port_y)
    lead, main = plot.wire_at(f"{plot.board_id}:0V"), plot.between(f"{plot.load.id}:2", plot.zero)
    rail, lead_room, main_room = zero[1] + 20, 196, 260
    words_low = low + 8 + part_block(plot.relay, 120).height
    last = max(rail + PITCH * plot.rows(lead, lead_room) + 14, load_bottom + 26, words_low + 16)
    last = max(last, words_low + PITCH * plot.rows(main, main_room) + 14)
    points = [*load_end(plot, at.x, load_bottom, upper=False)[::-1], (at.x, last), (ZERO, last)]
    returns(plot, f"{plot.load.id}:2", zero, rail, points, supply_bottom, other_zero)
    plot.label(lead, OTHER_ZERO + 10, rail + 15, lead_room)
    plot.label(main, at.x - 12, last - 15, main_room, "end", up=True)
    sheet.height = last + 12


def _load_place(plot: Plot, edge: float) -> Upright:
    """Load and suppressor to the right of the relay's edge."""
    if not plot.suppressors:
        return Upright(660, 660, 628, "end", 628 - edge - 8, 0, "start", 0, "start")
    return Upright(614, 664, 584, "end", 584 - edge - 8, 680, "start", WIDE - 684, "start")


def _inside(
    plot: Plot, left: float, coil_x: float, contact_x: float, coil: tuple[float, float], contact: tuple[float, float]
) -> None:
    """Coil and contact, and the dashed line that says that one moves the other. Both by upper and lower y."""
    sheet, (upper, lower), (top, low) = plot.sheet, coil, contact
    middle = (upper + lower) / 2
    for y in coil:
        sheet.stroke((left, y), (coil_x, y))
    x, y = symbols.relay_coil(sheet, coil_x, upper, lower)
    blade_x, _ = symbols.make_contact(sheet, contact_x, top, middle, low)
    sheet.stroke((x + 2, y), (blade_x, y), line=1, dashed=True)


def _coil_wires(plot: Plot, start: Point, points: list[Point], terminal: Point) -> None:
    """The coil's plus wire to its suppressor, or straight to the terminal."""
    if plot.coil_suppressors:
        input_wire(plot, start, *points)
        plot.sheet.joint(points[-1], terminal)
        plot.sheet.dot(*points[-1])
    else:
        input_wire(plot, start, *points, terminal)


def _coil_return(plot: Plot, terminal: Point, points: list[Point]) -> None:
    """The coil's wire to the port: from its suppressor, or straight from the terminal."""
    if plot.coil_suppressors:
        plot.sheet.joint(terminal, points[0])
        plot.sheet.dot(*points[0])
        plot.run(f"{plot.relay.id}:A2", plot.port, *points)
    else:
        plot.run(f"{plot.relay.id}:A2", plot.port, terminal, *points)


def relayed_narrow(plot: Plot) -> None:
    """The relay under the feed, its coil's suppressor to its left; under it the board and the load."""
    sheet, box, right, y = plot.sheet, plot.relay.id, 112, 36.0 + raised(plot, 8, 112)
    feed_x, input_x, left, coil_x, edge = 240, 132, 166, 198, 274
    minus_x, text_limit = 326, 132 - 14 - ZERO - 10
    supply_bottom = source(plot, 8, right, y)

    # feed and coil wires down to the relay
    feed_begin, input_begin, input_low = feed_down(plot, (right, y), feed_x, input_x)
    feed, signal = plot.wire_at(f"{box}:11"), plot.wire_at(f"{box}:A1")
    feed_room, input_room = NARROW - feed_x - 16, feed_x - input_x - 22
    feed_low = feed_begin[-1][1]
    top = max(feed_low + plot.rows(feed, feed_room) * PITCH, input_low + plot.rows(signal, input_room) * PITCH) + 22
    top = max(top, supply_bottom - 8)
    plot.run(plot.behind_fuse, f"{box}:11", *feed_begin, (feed_x, top))
    plot.label(feed, feed_x + 12, feed_low + 18, feed_room)
    words = part_block(plot.relay, NARROW - edge - 12)
    input_y = top + 24
    back_y = input_y + max(104.0, chain_height(plot.coil_suppressors, text_limit), words.height - 32)
    low = back_y + 26
    _coil_wires(plot, input_begin, [(input_x, input_begin[1]), (input_x, input_y)], (left, input_y))
    plot.label(signal, input_x + 12, input_low + 16, input_room)

    # the relay
    sheet.box(left, top, edge, low, dashed=True)
    terminals(plot, {"11": (feed_x, top), "14": (feed_x, low), "A1": (left, input_y), "A2": (left, back_y)})
    names(plot, {"11": (feed_x + 8, top + 13, "start"), "14": (feed_x + 8, low - 13, "start"),
                 "A1": (left + 8, input_y - 11, "start"), "A2": (left + 8, back_y + 12, "start")})  # fmt: skip
    _inside(plot, left + RING, coil_x, feed_x, (input_y, back_y), (top + RING, low - RING))
    sheet.block(words, edge + 8, (top + low) / 2 - (len(words.rows) - 1) * PITCH / 2)
    if plot.coil_suppressors:
        chain_upright(sheet, plot.coil_suppressors, input_x, input_y, back_y, (input_x - 14, "end", text_limit))

    # board at the left, load at the right
    back, there = plot.wire_at(f"{box}:A2"), plot.wire_at(f"{box}:14")
    room, there_room = input_x - ZERO - 18, 64
    port_y = max(back_y + plot.rows(back, room) * PITCH + 24, low + PITCH * 3 + 20)
    _coil_return(plot, (left, back_y), [(input_x, back_y), (input_x, port_y)])
    plot.label(back, input_x - 10, back_y + 16, room, "end")
    zero = board_from_top(plot, 36, 186, input_x, port_y, text_left=True)
    plot.label(there, feed_x - 8, low + 18, there_room, "end")
    start = low + plot.rows(there, there_room) * PITCH + 26
    plus, minus, load_low = hanging(plot, feed_x, minus_x, start, 2 * (NARROW - 20 - (feed_x + minus_x) / 2))
    plot.run(f"{box}:14", plot.plus_end, (feed_x, low), *plus)

    # returns
    lead, main = plot.wire_at(f"{plot.board_id}:0V"), plot.between(f"{plot.load.id}:2", plot.zero)
    rail, lead_room, main_room = zero[1] + 20, 150, 130
    under = rail + plot.rows(lead, lead_room) * PITCH + 16
    other_zero = 0.0
    if plot.other_supply:
        other_zero, under = other_supply(plot, plot.other_supply, 190, under)
        under += 20
    last = max(under, load_low + plot.rows(main, main_room) * PITCH + 20)
    out = NARROW - 8
    points = [*minus[::-1], (out, minus[0][1]), (out, last), (ZERO, last)]
    returns(plot, f"{plot.load.id}:2", zero, rail, points, supply_bottom, other_zero)
    plot.label(main, out - 10, last - 15, main_room, "end", up=True)
    plot.label(lead, OTHER_ZERO + 10, rail + 16, lead_room)
    sheet.height = last + 12
