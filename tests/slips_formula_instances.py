"""Instances of wrong formulas and wrong units, with other numbers, letters and writings.

Each maker draws the lines of one slip: right lines, then the wrong one. The wrong move is made
here by hand, without the matcher.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from random import Random

from tutor.marking.task import Task
from tutor.quantity.pi import Pi


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


# -- round shapes ---------------------------------------------------------------------------------


def pis(rng: Random) -> str:
    return rng.choice(("3.14", "π", "22/7"))


def radius(rng: Random) -> int:
    return rng.choice((3, 5, 6, 7, 9, 11, 12, 13, 15, 20))


def disc(r: int, pi: Pi = Pi.DECIMAL) -> Task:
    return Task(("A = pi r^2",), (("r", f"{r} cm"),), ("A",), ("cm^2",), pi)


def hoop(r: int, pi: Pi = Pi.DECIMAL) -> Task:
    return Task(("C = 2 pi r",), (("r", f"{r} cm"),), ("C",), ("cm",), pi)


@maker("circumference-given-for-area")
def _around_for_area(rng: Random) -> Iterator[Instance]:
    r = radius(rng)
    pi = pis(rng)
    for right in (f"{pi}*{r}^2", f"{pi} · {r}²", f"{pi}({r})({r})", f"{r}²·{pi}"):
        yield from sides(rng, right, f"2*{pi}*{r}")
    yield Instance(("π r^2", "2 π r"))
    yield Instance(("A = π r²", "A = 2 π r"), Task(find=("A",)))
    yield Instance(("A = π r²", f"A = 2·3.14·{r}"), Task(find=("A",)))
    for line in ("A = 2 pi r", f"A = 2·3.14·{r}", f"A = {show(6.28 * r)}", f"A = {show(6.28 * r)} cm"):
        yield Instance((line,), disc(r))


@maker("radius-doubled-not-squared")
def _doubled(rng: Random) -> Iterator[Instance]:
    r = radius(rng)
    pi = pis(rng)
    for wrong in (f"{pi}*2*{r}", f"{pi}*{2 * r}", f"{pi}({2 * r})"):
        yield from sides(rng, f"{pi}*{r}^2", wrong)
    yield from sides(rng, f"3.14*{r}^2", show(6.28 * r))
    for line in (f"A = 3.14·{2 * r}", f"A = 3.14·2·{r}"):
        yield Instance((line,), disc(r))


@maker("diameter-used-as-radius")
def _diameter(rng: Random) -> Iterator[Instance]:
    r = radius(rng)
    d = 2 * r
    pi = pis(rng)
    yield from sides(rng, f"{pi}*{r}^2", f"{pi}*{d}^2")
    yield from sides(rng, f"{pi}·{r}·{r}", f"{pi}·{d}·{d}")
    yield from sides(rng, f"2*{pi}*{r}", f"2*{pi}*{d}", "C")
    yield from sides(rng, f"3.14*{r}^2", show(3.14 * d * d))
    yield from sides(rng, f"{pi}*{r}^2*8", f"{pi}*{d}^2*8", "V")
    for line in ("A = 3.14*d^2", f"A = π·{d}²", f"A = 3.14·{d}·{d}", f"A = {show(3.14 * d * d)} cm²"):
        yield Instance((line,), disc(r))
    by_diameter = Task(("A = pi r^2",), (("d", f"{d} cm"),), ("A",), ("cm^2",), Pi.DECIMAL)
    for line in (f"A = 3.14·{d}²", f"r = {d} cm", f"A = {show(3.14 * d * d)}"):
        yield Instance((line,), by_diameter)
    yield Instance((f"{d}^2 = {d * d}", f"A = 3.14·{d * d}"), disc(r))


@maker("radius-used-as-diameter")
def _radius(rng: Random) -> Iterator[Instance]:
    r = radius(rng)
    d = 2 * r
    pi = pis(rng)
    yield from sides(rng, f"{pi}*{d}", f"{pi}*{r}", "C")
    yield from sides(rng, f"2*{pi}*{r}", f"{pi}*{r}", "C")
    yield from sides(rng, f"3.14*{d}", show(3.14 * r), "C")
    for line in ("C = pi r", f"C = 3.14·{r}", f"C = {show(3.14 * r)}"):
        yield Instance((line,), hoop(r))
    by_diameter = Task(("C = pi d",), (("d", f"{d} cm"),), ("C",), ("cm",), Pi.DECIMAL)
    yield Instance((f"C = 3.14·{r}",), by_diameter)


@maker("area-given-for-circumference")
def _area_for_around(rng: Random) -> Iterator[Instance]:
    r = radius(rng)
    pi = pis(rng)
    yield from sides(rng, f"2*{pi}*{r}", f"{pi}*{r}^2", "C")
    yield from sides(rng, f"{pi}*{2 * r}", f"{pi}*{r}^2", "C")
    yield Instance(("C = 2πr", "C = πr²"), Task(find=("C",)))
    for line in (
        "C = pi r^2",
        f"C = 3.14·{r}²",
        f"C = {show(3.14 * r * r)}",
        f"C = {show(3.14 * r * r)} cm²",
    ):
        yield Instance((line,), hoop(r))


@maker("cone-third-forgotten")
def _cone(rng: Random) -> Iterator[Instance]:
    r, h = rng.sample(range(4, 20), 2)
    pi = pis(rng)
    for right in (f"{pi}*{r}^2*{h}/3", f"1/3*{pi}*{r}^2*{h}", f"1/3 · {pi} · {r}² · {h}"):
        yield from sides(rng, right, f"{pi}*{r}^2*{h}", "V")
    yield from sides(rng, f"1/3*3.14*{r}^2*{h}", show(3.14 * r * r * h), "V")
    task = Task(("V = 1/3 pi r^2 h",), (("r", f"{r} cm"), ("h", f"{h} cm")), ("V",), ("cm^3",), Pi.DECIMAL)
    for line in ("V = pi r^2 h", f"V = 3.14·{r}²·{h}", f"V = {show(3.14 * r * r * h)} cm³"):
        yield Instance((line,), task)


@maker("sphere-power-wrong")
def _ball(rng: Random) -> Iterator[Instance]:
    r = rng.choice((3, 6, 9, 12, 15))
    pi = pis(rng)
    for right, wrong in (
        (f"4/3*{pi}*{r}^3", f"4/3*{pi}*{r}^2"),
        (f"4*{pi}*{r}^3/3", f"4*{pi}*{r}^2/3"),
        (f"4/3 · {pi} · {r}³", f"4/3 · {pi} · {r * r}"),
    ):
        yield from sides(rng, right, wrong, "V")
    task = Task(("V = 4/3 pi r^3",), (("r", f"{r} cm"),), ("V",), ("cm^3",), Pi.DECIMAL)
    for line in ("V = 4/3 pi r^2", f"V = 4/3·3.14·{r * r}", f"V = {show(4 / 3 * 3.14 * r * r)}"):
        yield Instance((line,), task)


@maker("cylinder-one-base-only")
def _can(rng: Random) -> Iterator[Instance]:
    r, h = rng.sample(range(3, 20), 2)
    pi = pis(rng)
    right = f"2*{pi}*{r}^2 + 2*{pi}*{r}*{h}"
    for wrong in (f"{pi}*{r}^2 + 2*{pi}*{r}*{h}", f"2*{pi}*{r}*{h} + {pi}*{r}^2"):
        yield from sides(rng, right, wrong, "S")
    yield from sides(rng, f"2*3.14*{r}^2 + 2*3.14*{r}*{h}", show(3.14 * r * r + 6.28 * r * h), "S")
    given = (("r", f"{r} cm"), ("h", f"{h} cm"))
    task = Task(("S = 2 pi r^2 + 2 pi r h",), given, ("S",), ("cm^2",), Pi.DECIMAL)
    for line in ("S = pi r^2 + 2 pi r h", f"S = {show(3.14 * r * r + 6.28 * r * h)}"):
        yield Instance((line,), task)


# -- boxes ----------------------------------------------------------------------------------------


def box(rng: Random) -> tuple[int, int, int]:
    while True:
        a, b, c = rng.sample(range(3, 25), 3)
        values = {a * b * c, a * b + a * c + b * c, 2 * (a * b + a * c + b * c), a + b + c}
        if len(values) == 4:
            return a, b, c


def box_task(a: int, b: int, c: int, formula: str, find: str, unit: str) -> Task:
    given = (("L", f"{a} cm"), ("W", f"{b} cm"), ("H", f"{c} cm"))
    return Task((formula,), given, (find,), (unit,))


def faces(a: int, b: int, c: int) -> tuple[str, ...]:
    return (
        f"2*{a}*{b} + 2*{a}*{c} + 2*{b}*{c}",
        f"2({a}*{b} + {a}*{c} + {b}*{c})",
        f"2*{a * b} + 2*{a * c} + 2*{b * c}",
        f"{a}*{b} + {a}*{b} + {a}*{c} + {a}*{c} + {b}*{c} + {b}*{c}",
    )


@maker("volume-given-for-surface-area")
def _volume_for_surface(rng: Random) -> Iterator[Instance]:
    a, b, c = box(rng)
    full, bracket, _, six = faces(a, b, c)
    for right in (full, bracket, six):
        for wrong in (f"{a}*{b}*{c}", str(a * b * c)):
            yield from sides(rng, right, wrong, "S")
    task = box_task(a, b, c, "SA = 2LW + 2LH + 2WH", "SA", "cm^2")
    for line in ("SA = L W H", f"SA = {a}*{b}*{c}", f"SA = {a * b * c}", f"SA = {a * b * c} cm^3"):
        yield Instance((line,), task)


@maker("surface-faces-not-doubled")
def _faces_once(rng: Random) -> Iterator[Instance]:
    a, b, c = box(rng)
    value = a * b + a * c + b * c
    for right in faces(a, b, c):
        for wrong in (f"{a}*{b} + {a}*{c} + {b}*{c}", f"{a * b} + {a * c} + {b * c}", str(value)):
            yield from sides(rng, right, wrong, "S")
    task = box_task(a, b, c, "SA = 2(LW + LH + WH)", "SA", "cm^2")
    for line in ("SA = LW + LH + WH", f"SA = {value} cm²", f"SA = 2·{a * b} + 2·{a * c} + {b * c}"):
        yield Instance((line,), task)
    yield Instance((f"{a}·{b} = {a * b}", f"{a * b} + {a * c} + {b * c} = {value}", f"SA = {value}"), task)


@maker("volume-as-visible-faces")
def _visible(rng: Random) -> Iterator[Instance]:
    a, b, c = box(rng)
    value = a * b + a * c + b * c
    for wrong in (f"{a}*{b} + {a}*{c} + {b}*{c}", str(value)):
        yield from sides(rng, product(rng, str(a), str(b), str(c)), wrong, "V")
    task = box_task(a, b, c, "V = L W H", "V", "cm^3")
    for line in ("V = LW + LH + WH", f"V = {value}"):
        yield Instance((line,), task)


@maker("volume-as-visible-faces-doubled")
def _visible_doubled(rng: Random) -> Iterator[Instance]:
    a, b, c = box(rng)
    value = 2 * (a * b + a * c + b * c)
    for wrong in (*faces(a, b, c), str(value)):
        yield from sides(rng, product(rng, str(a), str(b), str(c)), wrong, "V")
    task = box_task(a, b, c, "V = L W H", "V", "cm^3")
    for line in ("V = 2LW + 2LH + 2WH", f"V = {value}"):
        yield Instance((line,), task)


@maker("dimensions-added-for-volume")
def _added(rng: Random) -> Iterator[Instance]:
    a, b, c = box(rng)
    for wrong in (f"{a} + {b} + {c}", f"{c} + {a} + {b}", str(a + b + c)):
        yield from sides(rng, product(rng, str(a), str(b), str(c)), wrong, "V")
    task = box_task(a, b, c, "V = L W H", "V", "cm^3")
    for line in ("V = L + W + H", f"V = {a} + {b} + {c}", f"V = {a + b + c}"):
        yield Instance((line,), task)
    yield Instance(("L W H", "L + W + H"))


# -- angles ---------------------------------------------------------------------------------------


@maker("supplement-to-90")
def _supplement(rng: Random) -> Iterator[Instance]:
    a = rng.randint(10, 80)
    for wrong in (f"90 - {a}", str(90 - a)):
        yield from sides(rng, f"180 - {a}", wrong, "x")
    yield Instance((f"180° − {a}°", f"90° − {a}°"))
    for right, wrong in ((f"x + {a} = 180", f"x + {a} = 90"), (f"180 = {a} + x", f"90 = {a} + x")):
        yield Instance((right, wrong), Task(find=("x",)))
    task = Task(("A + B = 180",), (("A", f"{a}°"),), ("B",), ("°",))
    for line in ("A + B = 90", f"{a} + B = 90", f"B = 90 - {a}", f"B = {90 - a}°"):
        yield Instance((line,), task)
    pair = Task(("A + B = 180",), (("A", f"2x + {a}"), ("B", "x")), ("x",), ("",))
    for line in (f"2x + {a} + x = 90", f"3x + {a} = 90"):
        yield Instance((line,), pair)


@maker("complement-to-180")
def _complement(rng: Random) -> Iterator[Instance]:
    a = rng.randint(10, 80)
    for wrong in (f"180 - {a}", str(180 - a)):
        yield from sides(rng, f"90 - {a}", wrong, "x")
    yield Instance((f"x + {a} = 90", f"x + {a} = 180"), Task(find=("x",)))
    task = Task(("A + B = 90",), (("A", f"{a}°"),), ("B",), ("°",))
    for line in ("A + B = 180", f"{a} + B = 180", f"B = {180 - a}°"):
        yield Instance((line,), task)


@maker("triangle-sum-360")
def _triangle(rng: Random) -> Iterator[Instance]:
    a, b = rng.randint(20, 80), rng.randint(20, 80)
    for right in (f"180 - {a} - {b}", f"180 - ({a} + {b})", f"180 - {a + b}"):
        for wrong in (f"360 - {a} - {b}", f"360 - {a + b}", str(360 - a - b)):
            yield from sides(rng, right, wrong, "x")
    yield Instance((f"x + {a} + {b} = 180", f"x + {a} + {b} = 360"), Task(find=("x",)))
    yield Instance((f"x + {a} + {b} = 180", f"x + {a + b} = 360"), Task(find=("x",)))
    task = Task(("A + B + C = 180",), (("A", f"{a}°"), ("B", f"{b}°")), ("C",), ("°",))
    for line in ("A + B + C = 360", f"{a} + {b} + C = 360", f"C = {360 - a - b}°"):
        yield Instance((line,), task)


@maker("vertical-angles-added-to-180")
def _vertical(rng: Random) -> Iterator[Instance]:
    a = rng.choice([*range(20, 89), *range(92, 160)])
    yield from sides(rng, str(a), f"180 - {a}", "x")
    yield Instance((f"2x + 6 = {a}", f"2x + 6 + {a} = 180"), Task(find=("x",)))
    yield Instance((f"2x + 6 = {a}", f"2x + {a + 6} = 180"), Task(find=("x",)))
    task = Task(("A = B",), (("A", "2x + 6"), ("B", str(a))), ("x",), ("",))
    for line in ("A + B = 180", f"2x + 6 + {a} = 180", f"2x + {6 + a} = 180"):
        yield Instance((line,), task)


@maker("protractor-wrong-scale")
def _protractor(rng: Random) -> Iterator[Instance]:
    a = rng.choice([*range(20, 89), *range(92, 160)])
    yield from sides(rng, str(a), str(180 - a), "x")
    yield Instance((f"{a}°", f"{180 - a}°"))


# -- units ----------------------------------------------------------------------------------------

_SQUARES = (("m", "cm", 100), ("ft", "in", 12), ("cm", "mm", 10), ("yd", "ft", 3), ("km", "m", 1000))


@maker("linear-unit-on-area")
def _length_on_area(rng: Random) -> Iterator[Instance]:
    n, unit = rng.randint(12, 900), rng.choice(("m", "cm", "ft", "in", "yd"))
    yield Instance((f"{n} {unit}^2", f"{n} {unit}"))
    a, b = two(rng)
    task = Task(("A = L W",), (("L", f"{a} {unit}"), ("W", f"{b} {unit}")), ("A",), (f"{unit}^2",))
    yield Instance((f"A = {show(float(a) * float(b))} {unit}",), task)


@maker("square-unit-on-volume")
def _area_on_volume(rng: Random) -> Iterator[Instance]:
    n, unit = rng.randint(12, 900), rng.choice(("m", "cm", "ft", "in"))
    yield Instance((f"{n} {unit}^3", f"{n} {unit}^2"))
    a, b, c = box(rng)
    task = box_task(a, b, c, "V = L W H", "V", "cm^3")
    yield Instance((f"V = {a * b * c} cm²",), task)


@maker("square-unit-on-length")
def _area_on_length(rng: Random) -> Iterator[Instance]:
    n, unit = rng.randint(12, 900), rng.choice(("m", "cm", "ft", "in"))
    yield Instance((f"{n} {unit}", f"{n} {unit}^2"))
    a, b = two(rng)
    task = Task(("P = 2L + 2W",), (("L", f"{a} ft"), ("W", f"{b} ft")), ("P",), ("ft",))
    yield Instance((f"P = {show(2 * (float(a) + float(b)))} ft²",), task)


@maker("linear-factor-for-square-units")
def _square_factor(rng: Random) -> Iterator[Instance]:
    n, (big, small, factor) = rng.randint(1, 9), rng.choice(_SQUARES)
    yield Instance((f"{n} {big}^2 = {n * factor} {small}^2",))
    yield Instance((f"{n * factor} {small}² = {n} {big}²",))
    yield Instance((f"{n} {big}^2", f"{n * factor} {small}^2"))
    yield Instance((f"A = {n} {big}^2", f"A = {n * factor} {small}^2"), Task(find=("A",)))


@maker("linear-factor-for-cubic-units")
def _cubic_factor(rng: Random) -> Iterator[Instance]:
    n, (big, small, factor) = rng.randint(1, 9), rng.choice(_SQUARES)
    yield Instance((f"{n} {big}^3 = {n * factor} {small}^3",))
    yield Instance((f"V = {n} {big}^3", f"V = {n * factor} {small}^3"), Task(find=("V",)))


@maker("convert-the-wrong-way")
def _wrong_way(rng: Random) -> Iterator[Instance]:
    big, small, factor = rng.choice((("ft", "in", 12), ("m", "cm", 100), ("kg", "g", 1000), ("h", "min", 60)))
    n = factor * rng.randint(1, 9)
    yield Instance((f"{n} {big} = {n // factor} {small}",))
    yield Instance((f"{n} {small} = {n * factor} {big}",))
    yield Instance((f"{n} {big}", f"{n // factor} {small}"))
    yield Instance((f"x = {n} {big}", f"x = {n // factor} {small}"), Task(find=("x",)))
    yield Instance((f"3 {big} = {show(3 / factor)} {small}",))


@maker("mixed-units-multiplied")
def _mixed(rng: Random) -> Iterator[Instance]:
    a, b = rng.randint(2, 9), rng.randint(3, 40)
    big, small = rng.choice((("ft", "in"), ("m", "cm"), ("yd", "ft")))
    for unit in (big, small):
        yield Instance((f"{a} {big} * {b} {small} = {a * b} {unit}^2",))
    yield Instance((f"A = {a} {big} · {b} {small}", f"A = {a * b} {big}²"), Task(find=("A",)))
    task = Task(("A = L W",), (("L", f"{a} {big}"), ("W", f"{b} {small}")), ("A",), (f"{big}^2",))
    for line in (f"A = {a}·{b}", f"A = {a * b}", f"A = {a * b} {big}²"):
        yield Instance((line,), task)


def instances(name: str, draws: int) -> Iterator[Instance]:
    """Yield the instances of a slip for so many draws of numbers, the same on every run."""
    rng = Random(name)
    for _ in range(draws):
        yield from MAKERS[name](rng)
