"""A circuit as data: nodes follow from joints and wires alone."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.model.circuit import Circuit, Part, PartKind, Wire

SUPPLY = Part("T1", PartKind.SUPPLY, "12 V DC", ("+", "0V"))
FUSE = Part("F1", PartKind.FUSE, "3 A", ("1", "2"))
MOTOR = Part("M1", PartKind.MOTOR, "12 V", ("1", "2"))
DIODE = Part("D1", PartKind.DIODE, "diode", ("K", "A"))
LOOP = Circuit(
    (SUPPLY, FUSE, MOTOR, DIODE),
    (Wire("W1", "T1:+", "F1:1", "RD", 0.2), Wire("W11", "F1:2", "M1:1", "RD", 1.0),
     Wire("W12", "M1:2", "T1:0V", "BK", 1.0)),
    (("M1:1", "D1:K"), ("M1:2", "D1:A")),
    ("T1", "W1", "F1", "W11", "M1", "W12", "T1"),
)  # fmt: skip


def test_nodes_join_terminals_and_wire_ends():
    """Five places where parts meet, each with the ends of its wires; six parts' worth of terminals, none lost."""
    assert LOOP.nodes() == [
        ["D1:A", "M1:2", "W12:a"],
        ["D1:K", "M1:1", "W11:b"],
        ["F1:1", "W1:b"],
        ["F1:2", "W11:a"],
        ["T1:+", "W1:a"],
        ["T1:0V", "W12:b"],
    ]


@given(chance=st.randoms(use_true_random=False))
def test_nodes_do_not_depend_on_the_order_of_parts_and_wires(chance):
    """A list written otherwise is the same circuit."""
    parts, wires, joints = list(LOOP.parts), list(LOOP.wires), list(LOOP.joints)
    for each in (parts, wires, joints):
        chance.shuffle(each)
    assert Circuit(tuple(parts), tuple(wires), tuple(joints)).nodes() == LOOP.nodes()


@given(ends=st.lists(st.tuples(st.sampled_from("abcdefgh"), st.sampled_from("abcdefgh")), max_size=12))
def test_every_terminal_stands_in_one_node(ends):
    """Joints chain on, whatever their order."""
    circuit = Circuit((Part("X", PartKind.BOARD, "", tuple("abcdefgh")),), (),
                      tuple((f"X:{one}", f"X:{other}") for one, other in ends))  # fmt: skip
    nodes = circuit.nodes()
    assert sorted(terminal for node in nodes for terminal in node) == [f"X:{letter}" for letter in "abcdefgh"]
    for one, other in ends:
        assert any({f"X:{one}", f"X:{other}"} <= set(node) for node in nodes)


def test_wires_are_replaced_by_their_designator():
    """The others stay."""
    sized = LOOP.with_wires([Wire("W11", "F1:2", "M1:1", "RD", 1.0, "1.5 mm²")])
    assert sized.wire("W11").size == "1.5 mm²"
    assert sized.wire("W1") == LOOP.wire("W1")
    assert sized.nodes() == LOOP.nodes()


def test_unknown_designators_are_refused():
    """Nothing is made up."""
    for ask in (LOOP.part, LOOP.wire):
        with pytest.raises(KeyError):
            ask("Z9")


def test_parts_of_one_sort_are_found():
    """In order."""
    assert [part.id for part in LOOP.of(PartKind.FUSE)] == ["F1"]
    assert LOOP.of(PartKind.FAN) == ()
