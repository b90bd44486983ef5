"""Mends of fuses, wires, holders and shared leads: they agree with each other, and followed together they are enough.

The figures of each rule are checked elsewhere; here only what their mends say counts, read as a person reads it.
"""

import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guide_gen.model.finding import Level

KIND = {
    "fuse-missing", "fuse-below-load", "fuse-not-in-series", "fuse-above-wire", "fuse-above-port", "fuse-voltage",
    "fuse-in-return-only", "fuse-misses-the-motor", "fuse-cannot-open", "wire-too-thin", "drop-too-high",
}  # fmt: skip
SIZE = r"([\d.]+) (mm²|AWG) or thicker"
RATING = r"([\d.]+ m?A)(?: made for (\d+ V) DC)?"
ORDERS = (
    r"Fit ", r"Take a holder for (?P<holder>.+?) fuses and fit ", r"Give the feed a fuse of ", r"Read .+?, fit ",
    r"Keep the fuse in the return if you like, and add one of ",
)  # fmt: skip
METRIC, AMERICAN = ["0.75 mm2", "1.5 mm2", "2.5 mm2", "6 mm2"], ["16 AWG", "14 AWG", "12 AWG", "8 AWG"]
HOLDERS = {
    "blade": ["3 A", "7.5 A", "10 A", "11 A", "20 A", "40 A", "60 A"], "mini blade": ["5 A", "15 A", "30 A"],
    "5 x 20 mm": ["2 A", "6.3 A", "10 A"], "5 x 20 mm UL": ["5 A", "10 A"],
}  # fmt: skip

CONTROLLER = {
    "type": "speed controller", "board": "quay", "port": "4",
    "controller": {
        "current": "60 A", "pwm_frequency": "15 kHz", "run": "0.5 m", "input": "on/off", "input_voltage": "12 V",
        "input_current": "8 mA", "input_from": "behind the fuse", "lowest": "fully clockwise",
    },
}  # fmt: skip
RELAY = {
    "type": "relay", "board": "quay", "port": "5",
    "relay": {
        "coil_voltage": "12 V", "coil_resistance": "90 ohm", "contact_current": "60 A", "contact_voltage": "80 V",
        "run": "0.5 m",
    },
}  # fmt: skip


@st.composite
def feeds(draw, sizes):
    """A feed whose fuse and wire are stated at random, or left open."""
    holder = draw(st.sampled_from([*HOLDERS]))
    rating = draw(st.sampled_from([None, *HOLDERS[holder]]))
    fuse = {"holder": holder, "dc_voltage": draw(st.sampled_from([None, "60 V"])), "rating": rating}
    return {
        "run": draw(st.sampled_from(["0.3 m", "1.5 m", "4 m", "12 m"])),
        "fuse": draw(st.sampled_from([fuse, fuse, fuse, "none"])),
        "wire": draw(st.sampled_from([None, *sizes])),
    }


@st.composite
def builds(draw):
    """One or two toys with wrong fuses and wires, on thin or thick leads, with or without a block."""
    american = draw(st.booleans())
    sizes = AMERICAN if american else METRIC
    volts = draw(st.sampled_from([5, 12, 24, 48]))
    controls = [
        {"type": "always on"}, {"type": "on/off port", "board": "quay", "port": "2"},
        {"type": "pwm port", "board": "quay", "port": "3"}, CONTROLLER, RELAY,
    ]  # fmt: skip
    toys = {}
    for place in range(draw(st.integers(1, 2))):
        toys[f"toy-{place}"] = {
            "kind": "shaker motor", "cover": "yes", "voltage": f"{volts} V",
            "current": f"{draw(st.sampled_from([0.8, 2, 4, 6, 8, 14, 22, 30]))} A (measured)",
            "control": draw(st.sampled_from(controls)), "feed": draw(feeds(sizes)),
        }  # fmt: skip
    row = {"wharf": {"feed": draw(feeds(sizes))}} if draw(st.booleans()) else {}
    for toy in toys.values() if row else ():
        toy["feed"]["from"] = draw(st.sampled_from([None, "wharf"]))
    lead = {"run": draw(st.sampled_from(["0.1 m", "0.6 m"])), "wire": draw(st.sampled_from([None, None, *sizes]))}
    board = {
        "ports": "8", "port_current": draw(st.sampled_from(["4 A", "10 A", "30 A"])), "board_current": "60 A",
        "port_voltage": "60 V", "pwm_frequency": "200 Hz", "port_fuse": draw(st.sampled_from([None, "blade"])),
        "return": {"wire": draw(st.sampled_from([None, None, *sizes]))},
    }  # fmt: skip
    return {
        "build": "Any",
        "wiring": {
            "ampacity_table": "33 CFR 183.425" if american else "IEC 60204-1",
            "insulation": "105 °C" if american else "70 °C",
            "bundled_circuits": draw(st.sampled_from(["1", "4"])), "drop_limit": draw(st.sampled_from([None, "2 %"])),
        },
        "supplies": {
            "main": {
                "voltage": f"{volts} V", "current": draw(st.sampled_from(["10 A", "30 A", "60 A"])),
                "overload": draw(st.sampled_from(["limits", "restarts"])), "fuse_block": lead,
            }
        },
        "boards": {"quay": board}, "blocks": row, "toys": toys,
    }  # fmt: skip


# ---- reading a mend --------------------------------------------------------------------------------------------------


def plain(text):
    """Without spaces that do not break."""
    return text.replace("\u00a0", " ")


def element(finding):
    """The feed or the lead that a finding is about; its board's port and its supply's overload are none."""
    if finding.path[0] in ("supplies", "boards"):
        return finding.path[:3]
    return finding.path[:2]


def ordered(mend):
    """What a mend says of fuses and wires: without other ways, and without what else is to be looked at."""
    first = re.split(r"; or |\. Then ", mend)[0].removesuffix(".")
    if first.startswith("With "):
        return first.partition(",")[0]
    orders = (*(order + RATING for order in ORDERS), f"Take {SIZE}", r"(Leave the key fuse|Write fuse)",
              r"Fit F\d", r"Take (wire|leads|a lead|a 0 V lead) of")  # fmt: skip
    return first if any(re.match(order, first) for order in orders) else ""


def fuse_key(data, id):
    """The keys of a fuse by its designator: toys are numbered first, then blocks."""
    places = [("toys", slug) for slug in data["toys"]] + [("blocks", slug) for slug in data["blocks"]]
    return (*places[int(id[1:]) - 1], "feed", "fuse")


def changes(data, finding):
    """What a mend says is to change, as key and value."""
    text, found, own = ordered(plain(finding.mend)), {}, element(finding)
    number = [("toys", slug) for slug in data["toys"]] + [("blocks", slug) for slug in data["blocks"]]
    feed = own if own in number else None

    def size(key, match):
        found[key] = f"{match[1]} {match[2].replace('²', '2')}"

    def fuse(key, rating, made_for, holder=None):
        found[*key, "rating"] = rating
        found.update({(*key, "holder"): holder} if holder else {})
        found.update({(*key, "dc_voltage"): made_for} if made_for else {})

    if feed and (match := re.search(rf"fuse: \{{holder: blade(?:, dc_voltage: \d+ V)?\}}: {RATING} is chosen", text)):
        fuse((*feed, "feed", "fuse"), match[1], match[2], "blade")
    for order in ORDERS:
        if feed and (match := re.match(rf"{order}{RATING}", text)):
            named = match.groupdict().get("holder")
            fuse((*feed, "feed", "fuse"), *match.groups()[-2:], named or ("blade" if data_fuse(data, feed) else None))
    if match := re.match(rf"Take {SIZE}", text):
        size((*feed, "feed", "wire") if feed else (*own, "wire"), match)
    for match in re.finditer(rf"(F\d+) of {RATING}(?: in a holder for (\w+) fuses)?", text):
        fuse(fuse_key(data, match[1]), match[2], match[3], match[4])
    for match in re.finditer(rf"(?:wire|leads) of {SIZE}(?: for (block )?([\w -]+?)(?= and |,|$|\.))?", text):
        named = match[4] and ("blocks" if match[3] else "toys", match[4].lower().replace(" ", "-"))
        size((*(named or feed), "feed", "wire"), match)
    for match in re.finditer(rf"a lead of {SIZE} from T1 to the fuses", text):
        size(("supplies", "main", "fuse_block", "wire"), match)
    for match in re.finditer(rf"a 0 V lead of {SIZE} from A1", text):
        size(("boards", "quay", "return", "wire"), match)
    return found


def data_fuse(data, feed):
    """Whether a feed is described as one without a fuse."""
    return data[feed[0]][feed[1]]["feed"]["fuse"] == "none"


def applied(data, keys):
    """The description with these keys written."""
    if not isinstance(data, dict):
        return data
    changed = {key: applied(value, {way[1:]: new for way, new in keys.items() if way[0] == key and len(way) > 1})
               for key, value in data.items()}  # fmt: skip
    for way, new in keys.items():
        if len(way) == 1:
            changed[way[0]] = new
        elif not isinstance(changed.get(way[0]), dict):
            changed[way[0]] = applied({}, {other[1:]: one for other, one in keys.items() if other[0] == way[0]})
    return changed


def without_nothing(data):
    """A map without the keys that were left out."""
    return {key: without_nothing(value) if isinstance(value, dict) else value
            for key, value in data.items() if value is not None}  # fmt: skip


def of_kind(plan):
    """What must or should be mended of fuses and wires."""
    return [one for one in plan.findings if one.code in KIND and one.level is not Level.NOTE]


@pytest.fixture(scope="module", name="planned")
def _planned(plan_of):
    return lambda data: plan_of({}, without_nothing(data)).plan


# ---- the law ---------------------------------------------------------------------------------------------------------


quick = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@quick
@given(data=builds())
def test_mends_agree_and_followed_together_they_are_enough(planned, data):
    """One value for each fuse and wire; with all of them, what they mend is gone, and nothing new is found untold."""
    found = of_kind(planned(data))
    keys, mended = {}, []
    for finding in found:
        own = changes(data, finding)
        for key, value in own.items():
            assert keys.setdefault(key, value) == value, (key, finding)
        if own and not finding.mend.startswith("With "):
            mended.append((finding.code, element(finding)))
    if not keys:
        return
    left = of_kind(planned(applied(data, keys)))
    assert not [one for one in left if (one.code, element(one)) in mended], (keys, left)
    before = {(one.code, element(one)) for one in found}
    told = " ".join(plain(one.mend) for one in found)
    for one in left:
        assert (one.code, element(one)) in before or plain(one.mend)[1:] in told, (keys, one)
        assert not changes(data, one), (keys, one)


@quick
@given(data=builds())
def test_other_way_that_a_mend_tells_is_enough_alone(planned, data):
    """The fuse kept and a thicker wire, a shorter run, a stronger port; a shorter lead with what else is mended."""
    found = of_kind(planned(data))
    together = {key: value for finding in found for key, value in changes(data, finding).items()}
    for finding in found:
        ways = plain(finding.mend).split("; or ")[1:] if changes(data, finding) else []
        for way in ways:
            if way.startswith("take a toy and a supply of"):  # another toy
                continue
            keys = alone(finding, way)
            if element(finding)[0] == "supplies":
                keys |= {key: value for key, value in together.items() if key[0] != "supplies"}
            left = of_kind(planned(applied(data, keys)))
            assert (finding.code, element(finding)) not in [(one.code, element(one)) for one in left], (way, keys)


def alone(finding, way):
    """What another way says is to change, as key and value."""
    own = element(finding)
    if match := re.match(rf"keep F\d+ of {RATING} and take {SIZE}", way):
        return {(*own, "feed", "wire"): f"{match[3]} {match[4].replace('²', '2')}"}
    if match := re.match(r"shorten the run to ([\d.]+ m) ", way):
        return {(*own, "feed", "run"): match[1]}
    if match := re.match(r"use a port for ([\d.]+ A)", way):
        return {("boards", "quay", "port_current"): match[1]}
    assert way.startswith("keep it within 177.8 mm"), way
    return {(*own, "run"): "0.1778 m"}
