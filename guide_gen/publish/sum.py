"""A formula as a reader sees it: from the Python expression that was evaluated, so the two cannot differ."""

import ast
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from markupsafe import Markup, escape

from guide_gen.publish.number import NBSP, number, scaled

_GREEK = {
    "alpha": "α",
    "beta": "β",
    "gamma": "γ",
    "delta": "δ",
    "epsilon": "ε",
    "zeta": "ζ",
    "eta": "η",
    "theta": "θ",
    "kappa": "κ",
    "lamda": "λ",
    "mu": "μ",
    "nu": "ν",
    "xi": "ξ",
    "pi": "π",
    "rho": "ρ",
    "sigma": "σ",
    "tau": "τ",
    "phi": "φ",
    "chi": "χ",
    "psi": "ψ",
    "omega": "ω",
    "Delta": "Δ",
    "Omega": "Ω",
    "Phi": "Φ",
    "Sigma": "Σ",
}
# How tightly things bind; a number with its unit binds like a power, so that only a power puts it in brackets.
_WORD, _SUM, _PRODUCT, _SIGN, _POWER, _ATOM = range(6)
_OPERATORS: dict[type[ast.operator], tuple[str, int]] = {
    ast.Add: ("+", _SUM),
    ast.Sub: ("−", _SUM),
    ast.Mult: ("×", _PRODUCT),
    ast.Div: ("÷", _PRODUCT),
    ast.FloorDiv: ("÷", _PRODUCT),
    ast.Mod: ("mod", _PRODUCT),
}
_COMPARISONS: dict[type[ast.cmpop], str] = {
    ast.Lt: "<",
    ast.LtE: "≤",
    ast.Gt: ">",
    ast.GtE: "≥",
    ast.Eq: "=",
    ast.NotEq: "≠",
}
_SUPERSCRIPT = {"2": "²", "3": "³"}


@dataclass(frozen=True)
class _Piece:
    """A part of a sum and how tightly its outermost operation binds."""

    text: Markup
    binds: int


def symbol(name: str) -> Markup:
    """A letter with its index: ``I_F`` is I with a low F, ``rho_20`` is ρ with a low 20."""
    base, _, index = name.partition("_")
    match = re.fullmatch(r"([A-Za-z]+)(\d+)", base)
    if match and not index:
        base, index = match.groups()
    shown = escape(_GREEK.get(base, base))
    return shown + (Markup("<sub>") + escape(index.replace("_", ",")) + Markup("</sub>") if index else Markup(""))


def formula(expression: str) -> Markup:
    """A Python expression as a formula: ``max(1.5 * I, I / 0.75)`` is max(1.5 × I ; I ÷ 0.75)."""
    return _written(expression, lambda name: _Piece(symbol(name), _ATOM))


def substituted(expression: str, numbers: Mapping[str, float], units: Mapping[str, str]) -> Markup:
    """The same formula with each letter's number and unit in its place."""

    def value(name: str) -> _Piece:
        if name not in numbers:
            return _Piece(symbol(name), _ATOM)
        amount, unit = scaled(numbers[name], units.get(name, ""))
        return _Piece(_amount(amount, unit), _WORD if amount < 0 else _POWER if unit else _ATOM)

    return _written(expression, value)


def result(value: float | str, unit: str) -> Markup:
    """The result with its unit."""
    return escape(value) if isinstance(value, str) else _amount(*scaled(value, unit), digits=3)


def _amount(value: float, unit: str, digits: int = 4) -> Markup:
    """Number and unit; a very small or very large number as a power of ten."""
    behind = escape(f"{NBSP}{unit}" if unit else "")
    if value and not 1e-4 <= abs(value) < 1e7:
        mantissa, exponent = f"{value:.2e}".split("e")
        return (
            escape(f"{number(float(mantissa))}{NBSP}×{NBSP}10")
            + Markup("<sup>{}</sup>").format(str(int(exponent)).replace("-", "−"))
            + behind
        )
    return escape(number(value, digits)) + behind


def _written(expression: str, letter: Callable[[str], _Piece]) -> Markup:
    return _piece(ast.parse(expression, mode="eval").body, letter).text


def _piece(node: ast.expr, letter: Callable[[str], _Piece]) -> _Piece:
    match node:
        case ast.Name(id=name):
            return letter(name)
        case ast.Attribute(attr=name):
            return letter(name)
        case ast.Constant(value=bool() | str() as word):
            return _Piece(escape(str(word)), _ATOM)
        case ast.Constant(value=int() | float() as value):
            return _Piece(_amount(float(value), "", digits=8), _ATOM)
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return _Piece(Markup("−") + _inside(_piece(operand, letter), _SIGN), _SIGN)
        case ast.BinOp(left=base, op=ast.Pow(), right=exponent):
            return _power(_piece(base, letter), exponent, letter)
        case ast.BinOp(left=left, op=operator, right=right):
            return _operation(_piece(left, letter), operator, _piece(right, letter))
        case ast.Call(func=function, args=arguments):
            return _call(_called(function), [_piece(argument, letter) for argument in arguments])
        case ast.Compare(left=left, ops=operators, comparators=others):
            return _comparison(left, operators, others, letter)
        case ast.IfExp(test=test, body=body, orelse=other):
            parts = [_piece(part, letter).text for part in (body, test, other)]
            return _Piece(Markup("{} where {}, else {}").format(*parts), _WORD)
        case ast.BoolOp(op=operator, values=values):
            word = " and " if isinstance(operator, ast.And) else " or "
            return _Piece(Markup(word).join(_piece(value, letter).text for value in values), _WORD)
        case _:
            raise ValueError(f"no way to write {ast.unparse(node)!r} as a formula")


def _inside(piece: _Piece, at_least: int) -> Markup:
    """The piece, in brackets when it binds more loosely than it must."""
    return piece.text if piece.binds >= at_least else Markup("({})").format(piece.text)


def _operation(left: _Piece, operator: ast.operator, right: _Piece) -> _Piece:
    sign, binds = _OPERATORS[type(operator)]
    order_matters = isinstance(operator, ast.Sub | ast.Div | ast.FloorDiv | ast.Mod)
    # A line breaks before an operator, never behind it.
    return _Piece(_inside(left, binds) + f" {sign}{NBSP}" + _inside(right, binds + order_matters), binds)


def _power(base: _Piece, exponent: ast.expr, letter: Callable[[str], _Piece]) -> _Piece:
    if isinstance(exponent, ast.Constant) and exponent.value == 0.5:
        return _root(base)
    inside = _inside(base, _ATOM)
    if isinstance(exponent, ast.Constant) and str(exponent.value) in _SUPERSCRIPT:
        return _Piece(inside + _SUPERSCRIPT[str(exponent.value)], _POWER)
    return _Piece(inside + Markup("<sup>{}</sup>").format(_piece(exponent, letter).text), _POWER)


def _root(of: _Piece) -> _Piece:
    return _Piece(Markup("√({})").format(of.text), _ATOM)


def _called(function: ast.expr) -> str:
    return function.attr if isinstance(function, ast.Attribute) else ast.unparse(function)


def _call(name: str, arguments: list[_Piece]) -> _Piece:
    inside = Markup(" ; ").join(argument.text for argument in arguments)
    if name == "sqrt":
        return _root(arguments[0])
    if name == "abs":
        return _Piece(Markup("|{}|").format(inside), _ATOM)
    if name == "exp":
        return _Piece(Markup("e<sup>{}</sup>").format(inside), _POWER)
    name = {"log": "ln", "log10": "lg", "ceil": "round up", "floor": "round down"}.get(name, name)
    return _Piece(escape(name) + Markup("({})").format(inside), _ATOM)


def _comparison(
    left: ast.expr,
    operators: list[ast.cmpop],
    others: list[ast.expr],
    letter: Callable[[str], _Piece],
) -> _Piece:
    text = _piece(left, letter).text
    for operator, other in zip(operators, others, strict=True):
        text += f" {_COMPARISONS[type(operator)]}{NBSP}" + _piece(other, letter).text
    return _Piece(text, _WORD)
