"""Letters that a line brings in: those of the quadratic formula, u for x², i, a name of one's own."""

from tutor.line.tree import Statement
from tutor.marking.deciding.everyday import form_of
from tutor.marking.deciding.state import Known, Spec
from tutor.marking.judging.aftermath import Judged
from tutor.marking.judging.coefficients import with_coefficients
from tutor.marking.judging.imaginary import imaginary
from tutor.marking.judging.introduced import defined, defines
from tutor.marking.judging.quadratic_form import with_substitution


def is_everyday(base: Spec, statement: Statement) -> bool:
    """Tell whether a line and its premise are linear in the same unknown: nothing new can come in."""
    line, above = form_of(statement), base.form()
    return line is not None and above is not None and line.name == above.name


def with_new_letters(known: Known, statement: Statement) -> Known:
    """Return what is known with the meaning of letters that everybody understands in such a line."""
    return with_substitution(with_coefficients(known, statement), statement)


def of_new_letters(known: Known, statement: Statement, index: int) -> Judged | None:
    """Return the mark of a line with i in it, or of a definition; None for any other line."""
    judged = imaginary(known, statement, index)
    if judged is None and defines(known, statement):
        return defined(known, statement, index)
    return judged
