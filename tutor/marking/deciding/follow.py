"""Whether one line follows from what is known, in any of the ways a line can be taken."""

from dataclasses import dataclass, replace
from enum import Enum

from tutor.line.keys import expr_key
from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Joined, Joiner, Name, Num, Rel, Root, Said, Statement
from tutor.line.walk import every, sides
from tutor.marking.deciding import own_names
from tutor.marking.deciding.answers import answer_of
from tutor.marking.deciding.at_odds import at_odds
from tutor.marking.deciding.claim import ALWAYS, claim_of, split_signs
from tutor.marking.deciding.combined import combined
from tutor.marking.deciding.compare import Overlap
from tutor.marking.deciding.contradiction import same_contradiction
from tutor.marking.deciding.everyday import form_of
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.gains import legal_gain
from tutor.marking.deciding.nearly_copied import nearly_copied
from tutor.marking.deciding.no_branch import has_none_either, no_branch
from tutor.marking.deciding.plainer import ways
from tutor.marking.deciding.rounding import (
    asked_about,
    may_round,
    points,
    rounded_sides,
    rounds,
    rounds_alone,
)
from tutor.marking.deciding.sampling import sampled, the_one_about
from tutor.marking.deciding.stages import giving
from tutor.marking.deciding.state import Known, Spec, has_pi, settings, shown_values


class How(Enum):
    """How a line follows, or that it does not."""

    FOLLOWS = "follows"
    ROUNDS = "rounds"
    GAINS = "gains"  # a legal move that may have gained a solution
    BREAKS = "breaks"
    UNDECIDED = "undecided"


@dataclass(frozen=True, slots=True)
class Found:
    """The best that was found for a line: how, by which premises, in which setting."""

    how: How
    setting: Setting
    spec: Spec | None = None
    index: int | None = None
    overlap: Overlap | None = None


def search(known: Known, statement: Statement, specs: tuple[Spec, ...]) -> Found:
    """Try every setting and every premise set; the first in which the line follows wins."""
    best: Found | None = None
    taken = settings(known, statement)
    pi_matters = any(way.pi is not None for way in taken)
    unsure = False
    for setting in taken:
        for spec in specs:
            found = _exactly_or_plainer(known, statement, spec, setting)
            if found is None:
                unsure = True
                continue
            if found.how in (How.FOLLOWS, How.GAINS):
                return found
            if best is None:
                best = found
    for setting in taken if may_round(known, statement) else ():
        for spec in specs:
            if pi_matters and setting.pi is None and _another_pi_is_shown(known, statement):
                continue
            if spec.rounded and _rounds_again(known, spec, statement):
                continue
            try:
                rounded = _by_rounding(known, statement, spec, setting)
                if rounded and not nearly_copied(known, statement, setting):
                    return Found(How.ROUNDS, setting, spec, _rounded_index(spec, statement, setting))
            except NotExact:
                unsure = True
    for setting in taken if may_round(known, statement) else ():
        if _rounds_what_stands(known, statement, setting):
            return Found(How.ROUNDS, setting)
    if unsure:
        return Found(How.UNDECIDED, taken[0])
    return best or Found(How.BREAKS, taken[0])


def _rounds_what_stands(known: Known, statement: Statement, setting: Setting) -> bool:
    """``A ≈ 7.48`` below ``A = 2√14``: where the premises do not give the value, an exact answer does."""
    for answer in known.answers:
        if statement_names(statement) != {answer.name} or known.base is None:
            continue
        if answer.setting.units != setting.units:
            continue  # "A = 2√14" counted square metres: "7.48 cm²" is no rounding of it
        inside = [*every(answer.value)]
        exact = any(isinstance(node, Root) for node in inside)
        if not exact or any(isinstance(node, Num) and node.places for node in inside):
            continue
        try:
            if _by_rounding(known, statement, Spec((answer.statement,), known.base.positive), setting):
                return True
        except (NotExact, DividedByZero):
            continue
    return False


def _rounds_again(known: Known, spec: Spec, statement: Statement) -> bool:
    """``x ≈ 2.5`` below ``x = 2.445`` and ``x ≈ 2.45``: a rounded value is not rounded once more."""
    rounded = next((line for at, line in known.above if at == spec.line), None)
    told = None if rounded is None else answer_of(rounded)
    again = answer_of(statement)
    return told is not None and again is not None and told[0] == again[0]


def _another_pi_is_shown(known: Known, statement: Statement) -> bool:
    """The working shows 3.14 or 22/7: its answers are not roundings of what π itself gives."""
    return bool(known.shown_pi or shown_values(statement)) and not has_pi(statement)


def _rounded_index(spec: Spec, statement: Statement, setting: Setting) -> int | None:
    """The premise a rounded value takes the place of: the one that gives it, else the first with its name."""
    names = statement_names(statement)
    found = [at for at, premise in enumerate(spec.premises) if names & statement_names(premise)]
    if len(found) > 1 and len(names) == 1:
        at = giving(spec, setting, min(names))
        return found[0] if at is None else at
    return found[0] if found else None


def _exactly_or_plainer(known: Known, statement: Statement, spec: Spec, setting: Setting) -> Found | None:
    """Decide a line as it stands, or else made plainer; None where that cannot be told."""
    found = None
    try:
        found = _exactly(known, statement, spec, setting)
        if found.how is not How.BREAKS:
            return found
    except NotExact:
        pass
    put_in = own_names.put_in(spec.premises, statement)
    if put_in is not None and (again := _with_own_names(known, put_in, spec, setting)) is not None:
        return again
    index = combined(spec, statement, setting, parallel=known.context.ends_without)
    if index is not None:
        return Found(How.FOLLOWS, setting, spec, index, Overlap.SAME)
    if found is not None:
        return found
    for premises, line in ways(spec.premises, statement, spec.positive):
        try:
            plainer = Spec(premises, spec.positive, spec.line, spec.gained)
            found = _exactly(known, line, plainer, setting, whole=spec is known.base)
        except (NotExact, DividedByZero):
            continue
        return replace(found, spec=spec)
    at = the_one_about(spec.premises, statement)
    overlap = None if at is None else sampled(spec.premises[at], statement, setting)
    if overlap is None:
        return None
    return Found(How.FOLLOWS if overlap is Overlap.SAME else How.BREAKS, setting, spec, at, overlap)


def _with_own_names(known: Known, put_in: own_names.PutIn, spec: Spec, setting: Setting) -> Found | None:
    """``u² − 3u + 2 = 0`` below ``x − 3√x + 2 = 0`` and ``u = √x``; None where it does not follow."""
    places, premises, line = put_in
    own = Spec(premises, spec.positive, spec.line, spec.gained)
    try:
        found = _exactly(known, line, own, setting, whole=spec is known.base)
    except (NotExact, DividedByZero):
        return None
    if found.how is How.BREAKS:
        return None
    return replace(found, spec=spec, index=None if found.index is None else places[found.index])


def said_by(spec: Spec, statement: Statement, setting: Setting) -> Overlap | None:
    """Tell how a line lies to some premises, as it stands or made plainer; None where it cannot be told."""
    for premises, line in ((spec.premises, statement), *ways(spec.premises, statement, spec.positive)):
        try:
            taken = Spec(premises, spec.positive).ground(setting)
            return taken.outcome(claim_of(line, setting)).overlap
        except (NotExact, DividedByZero):
            continue
    at = the_one_about(spec.premises, statement)
    return None if at is None else sampled(spec.premises[at], statement, setting)


def _everyday(statement: Statement, spec: Spec, setting: Setting) -> Found | None:
    """Decide the everyday line at once, None where it is not of that kind."""
    form = spec.form()
    if form is None:
        return None
    line = form_of(statement)
    if line is None or line.name != form.name:
        return None
    if line == form:
        return Found(How.FOLLOWS, setting, spec, 0, Overlap.SAME)
    if line.rel is Rel.EQ is form.rel and form.name not in spec.positive:
        return Found(How.BREAKS, setting, spec, 0, Overlap.OTHER)
    return None


def _exactly(
    known: Known, statement: Statement, spec: Spec, setting: Setting, *, whole: bool | None = None
) -> Found:
    """Decide a line as it stands. ``whole``: the premises are those of the work, no branch of them."""
    whole = spec is known.base if whole is None else whole
    everyday = _everyday(statement, spec, setting)
    if everyday is not None:
        return everyday
    if not statement_names(statement) and not isinstance(statement, Said):
        true = all(claim_of(part, setting) == ALWAYS for part in split_signs(statement))
        contradiction = not true and at_odds(spec, setting) and same_contradiction(known, statement, setting)
        return Found(How.FOLLOWS if true or contradiction else How.BREAKS, setting, spec)
    parts = _parts(statement)
    ground = spec.ground(setting)
    outcome = ground.outcome(claim_of(statement, setting))
    if (
        outcome.overlap is Overlap.SAME
        and not whole
        and (no_branch(statement, setting) or has_none_either(spec, outcome.index, statement, setting))
    ):
        return Found(How.BREAKS, setting, known.base, None, Overlap.FEWER)
    if outcome.overlap is Overlap.SAME and isinstance(statement, Chain) and at_odds(spec, setting):
        same = same_contradiction(known, statement, setting)
        return Found(How.FOLLOWS if same else How.BREAKS, setting, spec, outcome.index, outcome.overlap)
    if outcome.overlap is Overlap.SAME:
        return Found(How.FOLLOWS, setting, spec, outcome.index, Overlap.SAME)
    if isinstance(statement, Said):
        return Found(How.BREAKS, setting, spec, overlap=outcome.overlap)
    if len(parts) > 1:
        found = [_part(known, part, spec, setting) for part in parts]
        if all(one is not None for one in found):
            index = next((one for one in found if one is not None and one >= 0), None)
            return Found(How.FOLLOWS, setting, spec, index)
    elif not at_odds(spec, setting) and _side_identity(known, statement, setting):
        return Found(How.FOLLOWS, setting, spec)
    if outcome.overlap is Overlap.MORE and legal_gain(known, statement, setting):
        return Found(How.GAINS, setting, spec, outcome.index, Overlap.MORE)
    return Found(How.BREAKS, setting, spec, outcome.index, outcome.overlap)


def _parts(statement: Statement) -> tuple[Statement, ...]:
    """Statements that must each follow: the links of a chain, the parts of an "and"."""
    if isinstance(statement, Joined) and statement.joiner is not Joiner.OR:
        return tuple(link for part in statement.parts for link in _parts(part))
    if (
        isinstance(statement, Chain)
        and len(statement.sides) > 2
        and all(rel.equates for rel in statement.rels)
    ):
        return tuple(
            Chain((left, right), (rel,), (left.span[0], right.span[1]))
            for left, rel, right in zip(statement.sides, statement.rels, statement.sides[1:], strict=False)
        )
    return (statement,)


def links(statement: Statement) -> tuple[Statement, ...]:
    """Return the single relations that a chain or an "and" is made of."""
    return _parts(statement)


def _part(known: Known, part: Statement, spec: Spec, setting: Setting) -> int | None:
    """Return the index of the premise that a part takes the place of, -1 where it is true by itself."""
    claim = claim_of(part, setting)
    if claim == ALWAYS:
        return -1
    if not statement_names(part):
        return None
    outcome = spec.ground(setting).outcome(claim)
    return outcome.index if outcome.overlap is Overlap.SAME else None


def _side_identity(known: Known, statement: Statement, setting: Setting) -> bool:
    """A side working with letters: one side stands in the work above, the other is equal to it."""
    if not isinstance(statement, Chain) or not all(rel.equates for rel in statement.rels):
        return False  # "0x < 6" is no working of a side
    if claim_of(statement, setting) != ALWAYS:
        return False
    above = [line for _, line in known.above] + list(known.base.premises if known.base else ())
    present = {expr_key(node) for line in above for side in sides(line) for node in every(side)}
    keys = {expr_key(side): side for side in statement.sides}
    # "x = −2 + (x + 2)" is no working of x, and says nothing of it.
    worked = any(key in present and not isinstance(side, Name) for key, side in keys.items())
    return worked and len(keys) == len(statement.sides)


def _by_rounding(known: Known, statement: Statement, spec: Spec, setting: Setting) -> bool:
    """Every part follows exactly or as a rounding; at least one rounds."""
    if _bound_rounds(known, statement, spec, setting):
        return True
    branches = split_signs(statement)
    if len(branches) > 1 and _says_which(statement):
        return _each_solution_rounds(known, branches, spec, setting)
    rounded = False
    for part in _parts(statement):
        try:
            if _part(known, part, spec, setting) is not None:
                continue
        except DividedByZero:
            return False
        except NotExact:
            pass  # a decimal that goes on has no exact claim, it can still be a rounding
        about = asked_about(known, part) or asked_about(known, statement)
        if len(_matched(known, part, spec, setting, about)) < len(points(spec.ground(setting))):
            return False  # "x = 4.47" of x² = 20 leaves a solution out
        rounded = True
    return rounded


def _bound_rounds(known: Known, statement: Statement, spec: Spec, setting: Setting) -> bool:
    """``t ≥ 21.18`` of ``85t ≥ 1800``: the bound of a solved inequality, rounded."""
    line = form_of(statement)
    if line is None or line.rel is Rel.EQ or not isinstance(statement, Chain) or len(spec.premises) != 1:
        return False
    decimal = next((side for side in statement.sides if not isinstance(side, Name)), None)
    exact = [spec.form(), *(form_of(above) for _, above in known.above)]
    return decimal is not None and any(
        form is not None
        and (line.name, line.rel) == (form.name, form.rel)
        and rounds_alone(known, form.bound, decimal, setting)
        for form in exact
    )


def _says_which(statement: Statement) -> bool:
    """Tell whether a line gives several values of one unknown: ``x ≈ ±4.5``, ``x ≈ 1.3 or x ≈ 2.7``."""
    return len(statement_names(statement)) == 1


def _each_solution_rounds(
    known: Known, branches: tuple[Statement, ...], spec: Spec, setting: Setting
) -> bool:
    """Tell whether every branch is a rounding of a solution, and every solution has its branch.

    Of a size both solutions may be written down, and then the one that can be is picked out:
    ``t ≈ −0.24 or t ≈ 8.24`` for a time. Not so where the problem tells what is measured.
    """
    told = not known.context.from_first_line
    if spec.positive and not told and any(_is_below_zero(branch) for branch in branches):
        spec, setting = Spec(spec.premises, frozenset()), replace(setting, positive=frozenset())
    about = [asked_about(known, branch) for branch in branches]
    matched = [
        _matched(known, branch, spec, setting, name) for branch, name in zip(branches, about, strict=True)
    ]
    every = range(len(points(spec.ground(setting))))
    return all(matched) and all(any(at in found for found in matched) for at in every)


def _is_below_zero(branch: Statement) -> bool:
    form = form_of(branch)
    return form is not None and form.bound < 0


def _matched(known: Known, part: Statement, spec: Spec, setting: Setting, about: str) -> frozenset[int]:
    """Return the solutions that a part gives rounded, by their place."""
    ground = spec.ground(setting)
    told = [rounds(known, ground, link, about, setting) for link in rounded_sides(part)]
    return frozenset().union(*told)
