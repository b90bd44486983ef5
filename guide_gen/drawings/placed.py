"""Parts with their text, and the leads at both ends, as every lay-out places them."""

from collections.abc import Sequence
from dataclasses import dataclass

from guide_gen.drawings import symbols
from guide_gen.drawings.lettering import capped, plain, rows, shortened, width
from guide_gen.drawings.plot import Across, Plot
from guide_gen.drawings.sheet import HEAD, PITCH, RING, SMALL, VALUE, Block, Point, Sheet, block_of
from guide_gen.model.circuit import Part, PartKind, Wire

ZERO = 24
"""x of the line that comes down from the supply's 0 V."""
TRUNK = 10
"""x of the line that comes down from the supply's 0 V past a distribution block under it."""
OTHER_ZERO = 40
"""x of the line that comes to a second supply's 0 V."""
OTHER_LEFT = 56
"""Left edge of a second supply, where its 0 V is."""
FUSE = 64
"""From terminal to terminal of a fuse."""
BRANCH = 18
"""From a fuse to the dot where the controller's input leaves the feed."""
_STUB = 24  # from a corner or dot to a machine's terminal


# ---- parts with their text ------------------------------------------------------------


def details(part: Part, *, beside: str = "") -> tuple[str, ...]:
    """What stands under a designator: name, value, notes, without what stands beside it."""
    return tuple(text for text in (part.name, part.value, *part.notes) if plain(text) and text != beside)


def source(plot: Plot, left: float, right: float, y: float) -> float:
    """What feeds the fuse, with + on its right edge at y: the supply, or a distribution block with all before it.

    Gives back where the line at its 0 V begins.
    """
    if plot.row:
        return _row(plot, plot.row, left, right, y)
    bottom = _supply(plot, left, right, y)
    plot.home = [(ZERO, bottom)]
    return bottom


def _supply(plot: Plot, left: float, right: float, y: float) -> float:
    """The feeding supply with + on its right edge at y and 0 V on its lower edge; gives back that edge."""
    sheet, part = plot.sheet, plot.supply
    inner = right - left - 22
    block = block_of(part, inner, below=details(part))
    sheet.block(block, left + 12, y)
    sheet.text("+", right - 14, y, 16, "middle")
    sheet.terminal(f"{part.id}:+", right, y)
    row = y + block.height + 6
    sheet.plug(left + 26, row)
    sheet.text("closed unit", left + 40, row)
    bottom = row + 38
    sheet.text("0 V", ZERO + 9, bottom - 14)
    sheet.terminal(f"{part.id}:0V", ZERO, bottom)
    sheet.box(left, y - 20, right, bottom)
    return bottom


# A distribution block stands under the supply and takes its place in the lay-out: + on its right edge, 0 V below.
_ROW_TOP, _ROW_LEFT, _ROW_FUSE_X = 36.0, 10, 60


def raised(plot: Plot, left: float, right: float) -> float:
    """How much lower all begins under a supply and the feed of a distribution block; 0 without one."""
    return _row_top(plot, left, right) - 20 if plot.row else 0.0


def _row_back(plot: Plot) -> Wire | None:
    """The block's 0 V lead, where this circuit has it."""
    assert plot.row is not None
    return plot.wire_at(f"{plot.row.id}:0V", f"{plot.supply.id}:0V") if "0V" in plot.row.terminals else None


def _row_feed(plot: Plot) -> Wire:
    return plot.wire_at(plot.plus, f"{plot.row_fuse.id}:2" if plot.row_fuse else f"{plot.supply.id}:+")


def _row_places(plot: Plot, left: float, right: float) -> tuple[float, float, float]:
    """Under the supply: its lower edge, the line of the block's feed, the block's upper edge."""
    low = _ROW_TOP + block_of(plot.supply, right - left - 22, below=details(plot.supply)).height + 44
    line = low + 14 + plot.rows(_row_back(plot), _ROW_FUSE_X + right - 50) * PITCH
    fuse_low = _ROW_TOP + 32 + FUSE if plot.row_fuse else _ROW_TOP
    line = max(line, fuse_low + 10 + plot.rows(_row_feed(plot), _row_room(plot, right)) * PITCH)
    return low, line, line + 20


def _row_room(plot: Plot, right: float) -> float:
    return plot.sheet.width - right - _ROW_FUSE_X - 18


def _row_top(plot: Plot, left: float, right: float) -> float:
    return _row_places(plot, left, right)[2]


def _row(plot: Plot, part: Part, left: float, right: float, y: float) -> float:
    """Supply, fuse and leads of a distribution block, and the block with + on its right edge at y."""
    sheet, fuse, feed, back = plot.sheet, plot.row_fuse, _row_feed(plot), _row_back(plot)
    supply_low = _supply(plot, left, right, _ROW_TOP)
    _, line, top = _row_places(plot, left, right)
    x, enter, plus = right + _ROW_FUSE_X, right - 16, f"{plot.supply.id}:+"
    begin = [(right, _ROW_TOP), (x, _ROW_TOP)]
    low = _ROW_TOP
    if fuse:
        lead = plot.run(plus, f"{fuse.id}:1", *begin, (x, _ROW_TOP + 32))
        plot.label(lead, right + 8, _ROW_TOP - 16, plot.sheet.width - right - 14, up=True)
        low = fuse_down(plot, fuse, x, _ROW_TOP + 32, plot.sheet.width - x - 26)
        plus, begin = f"{fuse.id}:2", [(x, low)]
    plot.run(plus, plot.plus, *begin, (x, line), (enter, line), (enter, top))
    plot.label(feed, x + 12, low + 18, _row_room(plot, right))

    left += _ROW_LEFT
    block = block_of(part, enter - left - 20, below=details(part))
    sheet.block(block, left + 10, top + 20)
    sheet.terminal(plot.plus, enter, top)
    sheet.joint((enter, top), (enter, y), (right, y))
    sheet.text("+", enter - 9, top + 12, 16, "middle")
    bottom = max(top + 20 + block.height + 2, y + 22) + (18 if back else 0)
    sheet.box(left, top, right, bottom)
    if not back:
        plot.home = [(TRUNK, supply_low + 10), (ZERO, supply_low + 10), (ZERO, supply_low)]
        return bottom
    zero = f"{part.id}:0V"
    sheet.text("0 V", ZERO + 9, bottom - 14)
    sheet.terminal(zero, ZERO, bottom)
    joint = bottom + 14
    sheet.joint((ZERO, bottom), (ZERO, joint))
    sheet.dot(ZERO, joint)
    up = [(TRUNK, supply_low + 10), (ZERO, supply_low + 10), (ZERO, supply_low)]
    plot.run(zero, f"{plot.supply.id}:0V", (ZERO, joint), (TRUNK, joint), *([] if _joined(plot) else up))
    if _joined(plot):
        sheet.joint((TRUNK, joint), *up)
        sheet.dot(TRUNK, joint)
    plot.label(back, ZERO + 10, supply_low + 16, _ROW_FUSE_X + right - 50)
    plot.home = [(TRUNK, joint)]
    return joint


def _joined(plot: Plot) -> bool:
    """Whether another lead comes to the supply's 0 V beside that of the block."""
    return plot.one(PartKind.BOARD) is not None and plot.board_goes_home


def other_supply(plot: Plot, part: Part, right: float, top: float) -> tuple[float, float]:
    """A second supply with 0 V on its left edge; gives back the terminal's y and the box's lower edge."""
    sheet, left = plot.sheet, OTHER_LEFT
    block = block_of(part, right - left - 17, below=details(part))
    sheet.block(block, left + 12, top + 20)
    sheet.text("+", right - 14, top + 20, 16, "middle")
    sheet.terminal(f"{part.id}:+", right, top + 20)
    zero = top + 20 + block.height + 4
    sheet.text("0 V", left + 12, zero)
    sheet.terminal(f"{part.id}:0V", left, zero)
    sheet.box(left, top, right, zero + 16)
    return zero, zero + 16


def fuse_notes(plot: Plot, part: Part) -> list[str]:
    """Rows of notes under a lying fuse; fewer letters a row where a branch of the feed runs down beside it."""
    limit = FUSE + 24 if plot.box else 132
    return capped([row for text in part.notes for row in rows(text, limit, SMALL)], 3, limit, SMALL)


def fuse_across(plot: Plot, part: Part, x: float, y: float) -> None:
    """A fuse lying from x to the right, its rating above and its notes below."""
    sheet, end, middle = plot.sheet, x + FUSE, x + FUSE / 2
    sheet.fuse(part, (x, y), (end, y))
    sheet.text("1", x, y + 14, SMALL, "middle")
    sheet.text("2", end, y + 14, SMALL, "middle")
    sheet.block(_fuse_head(part, FUSE + 24), middle, y - 24, "middle")
    for place, row in enumerate(fuse_notes(plot, part)):
        sheet.text(row, middle, y + 30 + place * PITCH, SMALL, "middle")


def fuse_down(plot: Plot, part: Part, x: float, y: float, limit: float, *, text_left: bool = False) -> float:
    """A fuse hanging from y, its text beside it; gives back its lower end."""
    sheet, end, side = plot.sheet, y + FUSE, -1 if text_left else 1
    sheet.fuse(part, (x, y), (x, end))
    for name, name_y in (("1", y), ("2", end)):
        sheet.text(name, x - 9 * side, name_y, SMALL, "start" if text_left else "end")
    block = block_of(part, limit, beside=_one_row(part, limit), size=VALUE, below=part.notes, most=FUSE // PITCH)
    _centred(sheet, block, x + 18 * side, y + FUSE / 2, "end" if text_left else "start")
    return end


def _centred(sheet: Sheet, block: Block, x: float, y: float, side: str) -> None:
    sheet.block(block, x, y - (len(block.rows) - 1) * PITCH / 2, side)


@dataclass(frozen=True)
class Upright:
    """Where an upright load and the suppressor across it stand: x of both and of their text, and its limits."""

    x: float
    diode_x: float
    text_x: float
    text_side: str
    text_limit: float
    diode_text_x: float
    diode_text_side: str
    diode_text_limit: float
    name_side: str


def part_block(part: Part, limit: float) -> Block:
    """The text of a part."""
    return block_of(part, limit, below=details(part))


def _series_height(plot: Plot, at: Upright) -> float:
    """From the terminal of a resistor before the load to the load's own: room for its text."""
    return max(52.0, part_block(plot.series, at.text_limit).height + 12) if plot.series else 0.0


def load_height(plot: Plot, at: Upright) -> float:
    """From the upper to the lower corner of an upright load: room for all its text."""
    text, before = part_block(plot.load, at.text_limit).height, _series_height(plot, at)
    own = max(140.0, text + (2 * _STUB + 8 if before else 16)) + before
    return max(own, chain_height(plot.suppressors, at.diode_text_limit))


def load_upright(plot: Plot, at: Upright, top: float, bottom: float) -> None:
    """A load between the corners at `top` and `bottom`, the suppressor across it; text at its sides."""
    sheet, load, series = plot.sheet, plot.load, plot.series
    upper, lower = top + _STUB, bottom - _STUB
    own = upper + _series_height(plot, at)
    beside = at.x + 9 if at.name_side == "start" else at.x - 9
    if series:
        sheet.terminal(f"{series.id}:1", at.x, upper)
        symbols.small(sheet, series, "1", (at.x, upper + RING), (at.x, own - 12))
        sheet.joint((at.x, upper), (at.x, upper + RING))
        sheet.joint((at.x, own - 12), (at.x, own))
        sheet.text("1", beside, upper, SMALL, at.name_side)
        _centred(sheet, part_block(series, at.text_limit), at.text_x, (upper + own) / 2 - 6, at.text_side)
    symbols.machine(sheet, load, (at.x, own), (at.x, lower))
    sheet.text("1", beside, own, SMALL, at.name_side)
    sheet.text("2", beside, lower, SMALL, at.name_side)
    middle = (own + lower) / 2 if series else (top + bottom) / 2
    _centred(sheet, part_block(load, at.text_limit), at.text_x, middle, at.text_side)
    if plot.suppressors:
        for corner, end in ((top, upper), (bottom, lower)):
            sheet.joint((at.x, corner), (at.x, end))
            sheet.joint((at.x, corner), (at.diode_x, corner))
            sheet.dot(at.x, corner)
        text = (at.diode_text_x, at.diode_text_side, at.diode_text_limit)
        chain_upright(sheet, plot.suppressors, at.diode_x, top, bottom, text)


def chain_height(chain: Sequence[Across], limit: float) -> float:
    """Height of what lies across a coil, with its text beside it."""
    return len(chain) * max((part_block(one.part, limit).height + 16 for one in chain), default=0.0)


def chain_upright(
    sheet: Sheet,
    chain: Sequence[Across],
    x: float,
    top: float,
    bottom: float,
    text: tuple[float, str, float],
    text_low: float | None = None,
) -> None:
    """What lies across a coil, one below the other.

    text: where its words stand: x, side, limit; all above `text_low` where that is higher than the lower end.
    """
    text_x, side, limit = text
    step = (bottom - top) / max(1, len(chain))
    words = ((bottom if text_low is None else text_low) - top) / max(1, len(chain))
    for place, one in enumerate(chain):
        symbols.small(sheet, one.part, one.plus, (x, top + place * step), (x, top + (place + 1) * step))
        _centred(sheet, part_block(one.part, limit), text_x, top + (place + 0.5) * words, side)


def load_end(plot: Plot, x: float, corner: float, *, upper: bool) -> list[Point]:
    """The last points of a wire to an upright load: to the dot at the corner, or past it to the terminal."""
    if plot.suppressors:
        return [(x, corner)]
    return [(x, corner), (x, corner + (_STUB if upper else -_STUB))]


def board_from_right(plot: Plot, left: float, right: float, y: float) -> Point:
    """The board with its port on the right edge at y and its 0 V on the lower edge; gives back the 0 V terminal."""
    sheet, board, switch, fuse = plot.sheet, plot.one(PartKind.BOARD), plot.one(PartKind.SWITCH), plot.port_fuse
    assert board is not None
    assert switch is not None
    x = right - 124 if fuse else right - 62
    top, gate_y, bottom = board_top(plot, left, right, y), y + 42, y + 84
    sheet.block(_board_head(board, right - left - 24), left + 12, top + 17)
    sheet.text(plot.port.split(":")[1], right - 10, y - 13, SMALL, "end")
    sheet.terminal(plot.port, right, y)
    if fuse:
        sheet.joint((right, y), (right - 40, y))
        sheet.fuse(fuse, (right - 40, y), (right - 104, y))
        sheet.block(_fuse_head(fuse, 84), right - 72, y - 24, "middle")
        for place, row in enumerate(_fuse_notes(fuse, 76)):
            sheet.text(row, right - 72, y + 20 + place * PITCH, SMALL, "middle")
        sheet.joint((right - 104, y), (x, y))
    else:
        sheet.joint((right, y), (x, y))
    source, (gate_x, _) = sheet.switch(switch, x, y)
    sheet.block(Block(switch.id, ("",)), x + 10, y + 62 if fuse and fuse.notes else y + 44)
    sheet.arrow_in(left + 14, (gate_x, gate_y))
    words = _switch_rows(switch, gate_x - left - 18)
    for place, row in enumerate(words):
        sheet.text(row, left + 14, gate_y - 13 - (len(words) - 1 - place) * PITCH)
    return _board_zero(plot, board, source, bottom, left, top, right)


def board_top(plot: Plot, left: float, right: float, y: float) -> float:
    """Upper edge of a board whose port is on its right edge at y: its name and the switch's words have room."""
    board, switch = plot.one(PartKind.BOARD), plot.one(PartKind.SWITCH)
    assert board is not None
    assert switch is not None
    head = _board_head(board, right - left - 24).height
    x = right - 124 if plot.port_fuse else right - 62
    words = len(_switch_rows(switch, x - 30 - left - 18)) * PITCH
    return min(y - (36 if plot.port_fuse else 24), y + 42 - 8 - words) - head - 9


def _one_row(fuse: Part, limit: float) -> str:
    """A fuse's rating, cut to the row beside its designator."""
    return shortened(plain(fuse.value), limit - width(fuse.id, HEAD, bold=True) - 6, VALUE)


def _fuse_head(fuse: Part, limit: float) -> Block:
    return Block(fuse.id, (_one_row(fuse, limit),), VALUE)


def _fuse_notes(fuse: Part, limit: float) -> list[str]:
    """At most two rows of notes under a fuse inside a board."""
    return rows(" ".join(fuse.notes), limit, SMALL, most=2) if fuse.notes else []


def _switch_rows(switch: Part, limit: float) -> list[str]:
    return [row for text in (switch.value, *switch.notes) if plain(text) for row in rows(text, limit, SMALL)]


def board_from_top(plot: Plot, left: float, right: float, x: float, top: float, *, text_left: bool = False) -> Point:
    """The board with its port on the upper edge at x and its 0 V below it; gives back the 0 V terminal.

    text_left: the text of switch and fuse stands to their left, for a board with no room to the right.
    """
    sheet, board, switch, fuse = plot.sheet, plot.one(PartKind.BOARD), plot.one(PartKind.SWITCH), plot.port_fuse
    assert board is not None
    assert switch is not None
    sheet.terminal(plot.port, x, top)
    sheet.text(plot.port.split(":")[1], x + 10, top + 14)
    head = _board_head(board, x - left - (20 if text_left else 28))
    sheet.block(head, left + 10, top + 17)
    head_low = top + 9 + head.height
    drain = top + 28
    if fuse:
        start = max(top + 28, head_low + 12) if text_left else top + 28
        sheet.joint((x, top), (x, start))
        end = fuse_down(plot, fuse, x, start, x - left - 22 if text_left else right - x - 26, text_left=text_left)
        drain = max(end + 10, head_low + 14 - 42)
        sheet.joint((x, end), (x, drain))
    else:
        drain = max(drain, head_low + 14 - 42)
        sheet.joint((x, top), (x, drain))
    source, (gate_x, gate_y) = sheet.switch(switch, x, drain)
    sheet.arrow_in(left + 14, (gate_x, gate_y))
    if text_left:
        block, text_x, text_y = _switch_block(switch, x - left - 20), left + 10, gate_y + 18
    else:
        block, text_x, text_y = _switch_block(switch, right - x - 18), x + 12, drain + 36
    sheet.block(block, text_x, text_y)
    bottom = max(drain + 84, text_y + block.height + (2 if text_left else 18))
    return _board_zero(plot, board, source, bottom, left, top, right, name_side="start")


def _switch_block(switch: Part, limit: float) -> Block:
    beside, *below = [text for text in (switch.value, *switch.notes) if plain(text)] or [""]
    return block_of(switch, limit, beside=beside, below=below)


def _board_head(board: Part, limit: float) -> Block:
    beside = board.name or board.value
    return block_of(board, limit, beside=beside, below=details(board, beside=beside))


def _board_zero(
    plot: Plot, board: Part, source: Point, bottom: float, left: float, top: float, right: float, name_side: str = "end"
) -> Point:
    """The board's outline and its 0 V terminal under the switch."""
    sheet, x = plot.sheet, source[0]
    sheet.joint(source, (x, bottom))
    sheet.terminal(f"{board.id}:0V", x, bottom)
    sheet.text("0 V", x + 10 if name_side == "start" else x - 10, bottom - 14, SMALL, name_side)
    sheet.box(left, top, right, bottom, dashed=True)
    return x, bottom


# ---- feed and return ------------------------------------------------------------------


def branch_x(plot: Plot, start: float, fuse_x: float) -> float:
    """x at which the controller's input leaves a feed along the top."""
    if not plot.fuse:
        return start + BRANCH
    return fuse_x - BRANCH if plot.same(plot.branch, f"{plot.fuse.id}:1") else fuse_x + FUSE + BRANCH


def feed_across(plot: Plot, start: Point, fuse_x: float, end: str, *points: Point) -> None:
    """The feed along the top: lead, fuse, and on to terminal `end` along `points`, the first of them its corner."""
    sheet, (x, y), fuse = plot.sheet, start, plot.fuse
    lead_end, feed_begin = _feed_ends(plot, x, fuse_x)
    lead_room, feed_room = _feed_rooms(plot, x, fuse_x, points[0][0])
    if fuse:
        first = f"{fuse.id}:1"
        if plot.branches_at(first):
            sheet.joint((lead_end, y), (fuse_x, y))
            sheet.dot(lead_end, y)
        lead = plot.run(plot.plus, first, (x, y), (lead_end, y))
        plot.label(lead, (x + lead_end) / 2, y - 15, lead_room, "middle", up=True)
        fuse_across(plot, fuse, fuse_x, y)
        x = fuse_x + FUSE
    if plot.branches_at(plot.behind_fuse):
        sheet.joint((x, y), (feed_begin, y))
        sheet.dot(feed_begin, y)
    feed = plot.run(plot.behind_fuse, end, (feed_begin, y), *points)
    plot.label(feed, (feed_begin + points[0][0]) / 2, y - 15, feed_room, "middle", up=True)


def feed_top(plot: Plot, start: float, fuse_x: float, corner: float, end: str) -> float:
    """y of a feed along the top, so that the labels above it have room."""
    lead = plot.between(plot.plus, f"{plot.fuse.id}:1") if plot.fuse else None
    feed = plot.between(plot.behind_fuse, end)
    lead_room, feed_room = _feed_rooms(plot, start, fuse_x, corner)
    return 15 + PITCH * max(plot.rows(lead, lead_room), plot.rows(feed, feed_room), 2)


def _feed_ends(plot: Plot, start: float, fuse_x: float) -> tuple[float, float]:
    """x where the lead ends and where the feed behind the fuse begins: at the fuse, or at the dot of a branch."""
    behind = BRANCH if plot.branches_at(plot.behind_fuse) else 0
    if not plot.fuse:
        return start, start + behind
    before = BRANCH if plot.branches_at(f"{plot.fuse.id}:1") else 0
    return fuse_x - before, fuse_x + FUSE + behind


def _feed_rooms(plot: Plot, start: float, fuse_x: float, corner: float) -> tuple[float, float]:
    """Widths for the labels of lead and feed, clear of the fuse's rating between them."""
    lead_end, feed_begin = _feed_ends(plot, start, fuse_x)
    return lead_end - start - 24, corner - feed_begin - 24


def board_home(plot: Plot, start: Point, rail: float, other_zero: float, *, alone: bool) -> Wire | None:
    """The board's 0 V lead: down to the rail, along it, and to the 0 V of the supply that it belongs to.

    alone: no other wire comes to the feeding supply's 0 V; else this lead ends where that one does, on the rail.
    """
    zero, other, down = f"{plot.board_id}:0V", plot.other_supply, (start[0], rail)
    if other is None or plot.board_goes_home:
        end = [(plot.home[0][0], rail), *(plot.home if alone else [])]
        return plot.run(zero, f"{plot.supply.id}:0V", start, down, *end)
    plot.sheet.joint((OTHER_ZERO, other_zero), (OTHER_LEFT, other_zero))
    return plot.run(zero, f"{other.id}:0V", start, down, (OTHER_ZERO, rail), (OTHER_ZERO, other_zero))
