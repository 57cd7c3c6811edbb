"""Instances of wrong formulas with π and of wrong formulas of boxes."""

from collections.abc import Iterator
from random import Random

from slips_formula_instances import Instance, maker, product, show, sides

from tutor.marking.task import Task
from tutor.quantity.pi import Pi

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
