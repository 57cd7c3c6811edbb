"""Instances of wrong formulas of flat shapes, and what all makers of instances share.

Each maker draws the lines of one slip: right lines, then the wrong one, with other numbers, letters
and writings than the table. The wrong move is made here by hand, without the matcher.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from random import Random

from tutor.marking.task import Task


@dataclass(frozen=True, slots=True)
class Instance:
    """Lines of work for a task; the last one is wrong."""

    lines: tuple[str, ...]
    task: Task = field(default_factory=Task)


Maker = Callable[[Random], Iterator[Instance]]
MAKERS: dict[str, Maker] = {}


def maker(name: str) -> Callable[[Maker], Maker]:
    def note(made: Maker) -> Maker:
        MAKERS[name] = made
        return made

    return note


def sides(rng: Random, right: str, wrong: str, name: str = "A") -> Iterator[Instance]:
    """The same two expressions alone, behind a name, in one line, and on a line that goes on."""
    yield Instance((right, wrong))
    yield Instance((f"{name} = {right}", f"{name} = {wrong}"), Task(find=(name,)))
    yield Instance((f"{right} = {name}", f"{wrong} = {name}"), Task(find=(name,)))
    yield Instance((f"{right} = {wrong}",))
    yield Instance((f"{name} = {right}", f"= {wrong}"), Task(find=(name,)))


def number(rng: Random, low: int = 3, high: int = 40) -> str:
    """A whole number, sometimes a decimal."""
    whole = rng.randint(low, high)
    return f"{whole}.5" if rng.random() < 0.2 else str(whole)


def two(rng: Random) -> tuple[str, str]:
    """Two sizes that are different, and for which area and way around are different too."""
    while True:
        a, b = number(rng), number(rng)
        x, y = float(a), float(b)
        if a != b and x * y not in (2 * (x + y), x + y):
            return a, b


def product(rng: Random, *factors: str) -> str:
    sign = rng.choice(("*", " · ", " × "))
    if rng.random() < 0.2:
        return factors[0] + "".join(f"({factor})" for factor in factors[1:])
    return sign.join(factors)


def show(value: float) -> str:
    """A value as a decimal that ends."""
    return f"{value:.6f}".rstrip("0").rstrip(".")


# -- flat shapes -------------------------------------------------------------------------------


@maker("perimeter-given-for-area")
def _perimeter(rng: Random) -> Iterator[Instance]:
    a, b = two(rng)
    value = show(2 * float(a) + 2 * float(b))
    for wrong in (f"2*{a} + 2*{b}", f"2({a} + {b})", f"{a} + {b} + {a} + {b}", value):
        yield from sides(rng, product(rng, a, b), wrong)
    task = Task(("A = L W",), (("L", f"{a} m"), ("W", f"{b} m")), ("A",), ("m^2",))
    for line in ("A = 2L + 2W", f"A = 2*{a} + 2*{b}", f"A = {value}", f"A = {value} m"):
        yield Instance((line,), task)
    yield Instance(("L*W", "2L + 2W"))


@maker("area-given-for-perimeter")
def _area(rng: Random) -> Iterator[Instance]:
    a, b = two(rng)
    value = show(float(a) * float(b))
    for right in (f"2*{a} + 2*{b}", f"2({a} + {b})", f"{a} + {b} + {a} + {b}"):
        yield from sides(rng, right, product(rng, a, b), "P")
        yield from sides(rng, right, value, "P")
    task = Task(("P = 2L + 2W",), (("L", f"{a} ft"), ("W", f"{b} ft")), ("P",), ("ft",))
    for line in ("P = L W", f"P = {a}*{b}", f"P = {value}", f"P = {value} ft^2"):
        yield Instance((line,), task)


@maker("two-sides-only-perimeter")
def _two_sides(rng: Random) -> Iterator[Instance]:
    a, b = two(rng)
    value = show(float(a) + float(b))
    for right in (f"2*{a} + 2*{b}", f"2({a}) + 2({b})", f"2({a} + {b})", f"{a} + {b} + {a} + {b}"):
        for wrong in (f"{a} + {b}", value):
            yield from sides(rng, right, wrong, "P")
    task = Task(("P = 2(L + W)",), (("L", f"{a} ft"), ("W", f"{b} ft")), ("P",), ("ft",))
    for line in ("P = L + W", f"P = {a} + {b}", f"P = {value} ft"):
        yield Instance((line,), task)
    frame = Task(("F = L + 2b",), (("F", f"{float(a) + 90} cm"), ("b", f"{b} cm")), ("L",), ("cm",))
    yield Instance((f"{float(a) + 90} = L + {b}",), frame)


@maker("sides-added-for-area")
def _sides_added(rng: Random) -> Iterator[Instance]:
    a, b = two(rng)
    value = show(float(a) + float(b))
    for wrong in (f"{a} + {b}", f"{b} + {a}", value):
        yield from sides(rng, product(rng, a, b), wrong)
    task = Task(("A = b h",), (("b", f"{a} m"), ("h", f"{b} m")), ("A",), ("m^2",))
    for line in ("A = b + h", f"A = {a} + {b}", f"A = {value}"):
        yield Instance((line,), task)
    yield Instance(("A = L W", f"A = {a} + {b}"), Task(find=("A",)))


@maker("triangle-half-forgotten")
def _half(rng: Random) -> Iterator[Instance]:
    a, b = two(rng)
    for right in (f"{a}*{b}/2", f"1/2 * {a} * {b}", f"½·{a}·{b}", f"0.5({a})({b})", f"({a} × {b}) ÷ 2"):
        for wrong in (product(rng, a, b), show(float(a) * float(b))):
            yield from sides(rng, right, wrong)
    yield Instance(("b*h/2", "b*h"))
    for formula in ("A = 1/2 b h", "A = bh/2", "A = ½ h b"):
        task = Task((formula,), (("b", f"{a} m"), ("h", f"{b} m")), ("A",), ("m^2",))
        for line in ("A = b h", f"A = {a}*{b}", f"A = {show(float(a) * float(b))} m^2"):
            yield Instance((line,), task)
    task = Task(("A = 1/2 b h",), (("A", "30"), ("b", a)), ("h",))
    yield Instance(("A = 1/2 b h", f"30 = {a} h"), task)


@maker("slant-side-as-height")
def _slant(rng: Random) -> Iterator[Instance]:
    base, height = rng.sample(range(5, 30), 2)
    slant = height + rng.choice((1, 2, 3, 8))
    if slant == base:
        slant += 4
    for right, wrong in (
        (f"{base}*{height}/2", f"{base}*{slant}/2"),
        (f"1/2 · {base} · {height}", f"1/2 · {base} · {slant}"),
    ):
        yield from sides(rng, right, wrong)
    given = (("b", f"{base} cm"), ("h", f"{height} cm"), ("s", f"{slant} cm"))
    task = Task(("A = 1/2 b h",), given, ("A",), ("cm^2",))
    for line in ("A = 1/2 b s", f"A = {base}*{slant}/2", f"A = {show(base * slant / 2)} cm^2"):
        yield Instance((line,), task)
    leaning = Task(("A = b h",), given, ("A",), ("cm^2",))
    for line in ("A = b s", f"A = {base}*{slant}"):
        yield Instance((line,), leaning)


def bases(rng: Random) -> tuple[int, int, int]:
    height, small, big = rng.sample(range(4, 30), 3)
    return height, small, big


@maker("trapezoid-half-forgotten")
def _trapezoid(rng: Random) -> Iterator[Instance]:
    h, b, c = bases(rng)
    for right in (
        f"{h}*({b} + {c})/2",
        f"1/2 * {h} * ({b} + {c})",
        f"({b} + {c})/2 * {h}",
        f"½({h})({b} + {c})",
    ):
        for wrong in (f"{h}*({b} + {c})", f"{h}*{b + c}", str(h * (b + c))):
            yield from sides(rng, right, wrong)
    task = Task(("A = 1/2 h (b + B)",), (("h", str(h)), ("b", str(b)), ("B", str(c))), ("A",))
    for line in ("A = h(b + B)", f"A = {h}({b} + {c})", f"A = {h * (b + c)}"):
        yield Instance((line,), task)


@maker("trapezoid-one-base")
def _one_base(rng: Random) -> Iterator[Instance]:
    h, b, c = bases(rng)
    if 2 * b in (c, b + c) or 2 * c == b:
        return
    for right in (f"{h}*({b} + {c})/2", f"1/2 * {h} * ({b} + {c})"):
        for wrong in (f"{h}*{b}", f"{c}*{h}", str(h * c)):
            yield from sides(rng, right, wrong)
    task = Task(("A = h(b + B)/2",), (("h", str(h)), ("b", str(b)), ("B", str(c))), ("A",))
    for line in ("A = h B", f"A = {h}*{b}", f"A = {h * c}"):
        yield Instance((line,), task)


@maker("area-scales-like-length")
def _area_scale(rng: Random) -> Iterator[Instance]:
    size, k = rng.randint(3, 40), rng.randint(3, 9)
    for wrong in (f"{size}*{k}", str(size * k)):
        yield from sides(rng, f"{size}*{k}^2", wrong)
    yield Instance((f"{size} · {k}²", f"{size} · {k}"))


@maker("volume-scales-like-length")
def _volume_scale(rng: Random) -> Iterator[Instance]:
    size, k = rng.randint(3, 40), rng.randint(2, 6)
    for wrong in (f"{size}*{k}", str(size * k)):
        yield from sides(rng, f"{size}*{k}^3", wrong, "V")


@maker("leg-squares-added-for-leg")
def _legs(rng: Random) -> Iterator[Instance]:
    a, c = rng.randint(3, 15), rng.randint(16, 30)
    for wrong in (f"{c}^2 + {a}^2", f"{c * c} + {a * a}", str(c * c + a * a)):
        yield from sides(rng, f"{c}^2 - {a}^2", wrong, "k")
    yield Instance((f"√({c}² − {a}²)", f"√({c}² + {a}²)"))
    yield Instance((f"{a}^2 + b^2 = {c}^2", f"b^2 = {c}^2 + {a}^2"), Task(find=("b",)))
    yield Instance((f"b^2 + {a}^2 = {c}^2", f"b^2 = {c * c + a * a}"), Task(find=("b",)))
    task = Task(("a^2 + b^2 = c^2",), (("a", str(a)), ("c", str(c))), ("b",), measures=("a", "b", "c"))
    lines = ("b^2 = c^2 + a^2", f"b^2 = {c}^2 + {a}^2", f"b^2 = {c * c + a * a}", f"b = √({c * c + a * a})")
    for line in lines:
        yield Instance((line,), task)


def instances(name: str, draws: int) -> Iterator[Instance]:
    """Yield the instances of a slip for so many draws of numbers, the same on every run."""
    rng = Random(name)
    for _ in range(draws):
        yield from MAKERS[name](rng)
