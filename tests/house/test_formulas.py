"""Every formula says what it does: its text gives the function's own result, its source and meaning are written."""

import ast
import importlib
import inspect
import math
import pkgutil
import random

import pytest

import guide_gen.formulas
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.values.worked import Shape, formulas_of, procedures_of, work

WORDS = {"min": min, "max": max, "sqrt": math.sqrt, "exp": math.exp, "log": math.log}
ALLOWED = (
    ast.Expression,
    ast.BinOp,
    ast.UnaryOp,
    ast.Call,
    ast.Name,
    ast.Constant,
    ast.Load,
    ast.Add,
    ast.Sub,
    ast.Mult,
    ast.Div,
    ast.Pow,
    ast.USub,
)
COMPARED = (*ALLOWED, ast.Compare, ast.GtE, ast.LtE)
SIGNS = {"Ω": "ohm", "°C": "degC", "%": "percent", "²": "2", "³": "3", "(": "", ")": "", "/": "_", " ": "_"}


def _found_modules():
    for found in pkgutil.iter_modules(guide_gen.formulas.__path__):
        yield importlib.import_module(f"guide_gen.formulas.{found.name}")


MODULES = list(_found_modules())
FORMULAS = {
    f"{module.__name__.rpartition('.')[2]}.{name}": function
    for module in MODULES
    for name, function in formulas_of(module).items()
}
PROCEDURES = {
    f"{module.__name__.rpartition('.')[2]}.{name}": function
    for module in MODULES
    for name, function in procedures_of(module).items()
}
BOTH = FORMULAS | PROCEDURES


@pytest.fixture(params=FORMULAS, name="function")
def _function(request):
    return FORMULAS[request.param]


@pytest.fixture(params=BOTH, name="numbered")
def _numbered(request):
    """Formulas and procedures: all that give a number."""
    return BOTH[request.param]


def _data(function):
    return getattr(function, "formula", None) or function.procedure


def _shown(text, function, inputs):
    """The text's value at the inputs."""
    letters = {letter: inputs[argument] for letter, argument in _data(function).letters.items()}
    return eval(text, {"__builtins__": {}}, WORDS | letters)


def _in_a_name(unit):
    """A unit as the end of a Python name; ``per`` may be left out: Ω/m -> ohm_m."""
    for sign, word in SIGNS.items():
        unit = unit.replace(sign, word)
    return unit


def _plain_functions(module):
    for name, function in vars(module).items():
        if inspect.isfunction(function) and function.__module__ == module.__name__ and not name.startswith("_"):
            yield name, function


def _draw(argument, chance):
    """A value that an argument of this name could have."""
    if argument == "gauge":
        return chance.randint(0, 40)
    if argument.endswith("_degC"):
        return chance.uniform(-30, 200)
    if argument.endswith(("_factor", "_share")):
        return chance.uniform(0.05, 1)
    if argument in {"margin", "opens_at"}:
        return chance.uniform(1, 3)
    if argument.endswith("_H"):
        return 10 ** chance.uniform(-4, 0)
    return 10 ** chance.uniform(-2, 2)


def _cases(function, count=60, tries=3000):
    """Inputs that the function accepts, with its results."""
    chance = random.Random(7)
    found = []
    for _ in range(tries):
        inputs = {argument: _draw(argument, chance) for argument in inspect.signature(function).parameters}
        try:
            found.append((inputs, function(**inputs)))
        except OutsideValidity:
            continue
        if len(found) == count:
            return found
    raise AssertionError(f"only {len(found)} inputs were accepted")


def test_there_are_formulas_in_every_subject():
    """The other tests here would pass on nothing."""
    subjects = {name.partition(".")[0] for name in FORMULAS}
    assert subjects >= {
        "coil",
        "diode",
        "fasteners",
        "fuse",
        "fuse_opening",
        "kickback",
        "lamp",
        "led",
        "motor",
        "port",
        "pwm",
        "short_circuit",
        "supply",
        "surface",
        "switch",
        "wire",
    }


def test_text_gives_what_the_function_gives(function):
    """The working on a page is the one that was computed; 1e-6 leaves room for a rounded pi/4."""
    for inputs, result in _cases(function):
        if math.isfinite(result):
            shown = _shown(function.formula.text, function, inputs)
            assert shown == pytest.approx(result, rel=1e-6, abs=1e-12), inputs


def test_never_is_said_exactly_where_the_result_is_infinite(function):
    """Infinity stands for never or without end, and the condition for it is written beside the text."""
    condition = function.formula.never
    for inputs, result in _cases(function):
        assert bool(condition and _shown(condition, function, inputs)) == math.isinf(result), inputs


def test_text_uses_plain_arithmetic_only(function):
    """Letters, numbers, + - * / ** and five named functions; a condition compares two such texts."""
    data = function.formula
    for text, allowed in ((data.text, ALLOWED), (data.never or "0", COMPARED)):
        tree = ast.parse(text, mode="eval")
        assert all(isinstance(node, allowed) for node in ast.walk(tree))
        names = {node.id for node in ast.walk(tree) if isinstance(node, ast.Name)} - set(WORDS)
        assert names == set(data.letters) if text == data.text else names <= set(data.letters)


def test_letters_cover_the_arguments(numbered):
    """Nothing enters a result that its working does not show."""
    assert sorted(_data(numbered).letters.values()) == sorted(inspect.signature(numbered).parameters)


def test_units_agree_with_the_names(numbered):
    """An argument's name ends in the unit that the working shows, and so does the function's."""
    data = _data(numbered)
    pairs = [(argument, data.units[letter]) for letter, argument in data.letters.items()]
    for name, unit in [*pairs, (numbered.__name__, data.unit)]:
        assert not unit or name.replace("_per_", "_").endswith(f"_{_in_a_name(unit)}"), (name, unit)
        assert unit or not name.endswith(("_A", "_V", "_W", "_ohm", "_m", "_mm", "_degC", "_percent")), name


def test_has_symbol_and_source(numbered):
    """A result without a source cannot be traced."""
    assert _data(numbered).symbol
    assert _data(numbered).source


def test_docstring_names_what_it_refuses_and_where_it_comes_from(numbered):
    """Units stand in the names; meaning, refusal and source stand in the docstring."""
    assert "Raises OutsideValidity" in numbered.__doc__
    assert "Source: " in numbered.__doc__


def test_refuses_what_cannot_be_with_argument_and_value(numbered):
    """Never NaN out, never a silent clamp: a wrong number is named."""
    inputs, _ = _cases(numbered, 1)[0]
    for argument in inputs:
        for wrong in (math.nan, math.inf, -300.0):
            with pytest.raises(OutsideValidity, match=f"^{argument} is ") as refusal:
                numbered(**inputs | {argument: wrong})
            assert refusal.value.argument == argument


def test_result_keeps_its_working(numbered):
    """`work` calls the function and keeps every number that went in."""
    inputs, result = _cases(numbered, 1)[0]
    kept = work(numbered, "id", "name", **inputs)
    assert kept.result == result or (math.isinf(result) and kept.result == _data(numbered).never_means)
    assert sorted(kept.numbers.values()) == sorted(inputs.values())
    evaluated = hasattr(numbered, "formula") and math.isfinite(result)
    assert kept.shape is (Shape.FORMULA if evaluated else Shape.CHOICE)
    assert kept.formula


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__.rpartition(".")[2])
def test_every_public_function_has_a_docstring(module):
    """Helpers without a formula too."""
    for name, function in _plain_functions(module):
        assert function.__doc__, name


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__.rpartition(".")[2])
def test_every_function_that_gives_a_number_has_a_formula_or_a_procedure(module):
    """A number without its working cannot be shown."""
    for name, function in _plain_functions(module):
        if inspect.signature(function).return_annotation is float:
            assert hasattr(function, "formula") or hasattr(function, "procedure"), name
