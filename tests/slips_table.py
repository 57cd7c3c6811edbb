"""The table of wrong moves on equations, expressions and numbers: an example of each with its source.

Of the published table these are the kinds: inverse operation, sign, like terms, distribution, equality
run-on, fraction, exponent, arithmetic slip. Every one of them can be shown by typed lines, so none is
left out; what is not typed as in the table is said beside its row.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """A wrong move: lines that show it, the last of them wrong. ``givens``: values the problem gives."""

    name: str
    lines: tuple[str, ...]
    source: str
    givens: tuple[tuple[str, str], ...] = ()


# fmt: off
TABLE = (
    # -- inverse operation
    Row("mult-undone-by-subtracting", ("3x = 12", "x = 9"), "Sleeman 1984, Cognitive Science 8:387-412; Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    Row("mult-undone-by-multiplying", ("3x = 12", "x = 36"), "Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    Row("quotient-upside-down", ("4x = 20", "x = 1/5"), "Sleeman 1984, Cognitive Science 8:387-412; Hall 2002, Phil. of Math. Educ. J. 15 (Transposing, Switching Addends, Division = ~3/4 of 166 errors; category READ at exeter.ac.uk pome15); from memory"),
    Row("div-undone-by-dividing", ("x/4 = 12", "x = 3"), "Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    Row("plus-undone-by-adding", ("x + 37 = 150", "x = 187"), "Kieran 1984/1992 (redistribution, switching addends); Hall 2002, Phil. of Math. Educ. J. 15 (Transposing, Switching Addends, Division = ~3/4 of 166 errors; category READ at exeter.ac.uk pome15); from memory"),
    Row("minus-undone-by-subtracting", ("x - 4 = 13", "x = 9"), "Booth & Koedinger 2008, Key Misconceptions in Algebraic Problem Solving, Proc. CogSci p.1"),
    Row("take-off-one-side-add-to-other", ("x + 10 = 25", "x + 10 - 10 = 25 + 10"), "Kieran 1984/1992 (redistribution, switching addends); from memory"),
    Row("constant-removed-one-side-only", ("2x + 6 = 14", "2x = 14"), "Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    Row("coefficient-removed-one-side-only", ("5x = 30", "x = 30"), "Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    Row("divide-only-the-x-term", ("3x + 6 = 15", "x + 6 = 5"), "Carry, Lewis & Bernard 1979, Psychology of Equation Solving (ERIC ED186243), partial operation; Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    Row("divide-left-side-only-fully", ("3x + 6 = 15", "x + 2 = 15"), "Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    Row("multiply-only-the-fraction-term", ("x/2 + 3 = 7", "x + 3 = 14"), "Carry, Lewis & Bernard 1979 (partial operation); from memory"),
    Row("all-numbers-to-one-side", ("3x + 4 = 19", "x = 12"), "Sleeman 1984, Basic Algebra Revisited, ERIC ED258846, abstract: 'global rule' of collecting all numbers on one side, coefficients included"),
    Row("insert-inside-bracket", ("2(x + 1) = 10", "2(x + 1 - 1) = 10 - 1"), "Lee & Star (Michigan State), The 'Insertion' Error in Solving Linear Equations, short paper; 153 grade-6 students, error in 12 (7.8%)"),
    Row("insert-against-factor", ("2(x + 5) = 4(x + 5)", "2 - 2(x + 5) = 4 - 2(x + 5)"), "Lee & Star (Michigan State), The 'Insertion' Error in Solving Linear Equations, short paper; 153 grade-6 students, error in 12 (7.8%)"),
    Row("subtract-in-opposite-orders", ("3x = 6x + 6", "6x - 3x = 6x - 6x + 6"), "Lee & Star (Michigan State), The 'Insertion' Error in Solving Linear Equations, short paper; 153 grade-6 students, error in 12 (7.8%)"),
    Row("variable-to-other-side-unchanged-sign", ("5x + 4 = 2x + 10", "7x = 6"), "Hall 2002, Phil. of Math. Educ. J. 15 (Transposing, Switching Addends, Division = ~3/4 of 166 errors; category READ at exeter.ac.uk pome15) (Transposing); from memory"),
    Row("constant-across-unchanged-sign", ("3x - 5 = 10", "3x = 5"), "Hall 2002, Phil. of Math. Educ. J. 15 (Transposing, Switching Addends, Division = ~3/4 of 166 errors; category READ at exeter.ac.uk pome15) (Transposing); from memory"),
    Row("two-step-order-reversed", ("2x + 6 = 14", "x = 1"), "Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    # -- sign
    Row("opposite-of-x-read-as-x", ("-x = 6", "x = 6"), "Vlassis 2001, PME-25 (read in a table of assessment items)"),
    Row("number-minus-x-reversed", ("6 - x = 8", "x = 2"), "Vlassis 2001, PME-25 (read in a table of assessment items)"),
    Row("negative-minus-x", ("-3 - x = 5", "x = 2"), "Vlassis 2001, PME-25 (read in a table of assessment items)"),
    Row("always-subtract-across", ("2x - 4 = x + 2", "x = -2"), "Vlassis 2001, PME-25 (read in a table of assessment items) (response x = -2 READ; the intermediate rule is our reading)"),
    Row("sign-dropped-when-dividing", ("-3x = 12", "x = 4"), "Vlassis 2002/2004; Booth, Barbieri, Eyer & Pare-Blagoev 2014, J. Problem Solving 7 (Persistent and pernicious errors); from memory"),
    Row("numeral-detached-from-its-minus", ("x + 20 - 7 + 5", "x + 20 - 12"), "Herscovics & Linchevski 1994, Educ. Studies in Math. 27, A cognitive gap between arithmetic and algebra, abstract (example is ours)"),
    Row("double-minus-ignored", ("8 - (-4)", "4"), "Bofferding 2010 conference paper 'Addition and subtraction with negatives' p.1, reporting Murray 1985, Vlassis 2004/2008, Tatsuoka 1983"),
    Row("two-minuses-make-a-plus-in-a-sum", ("-1 + (-5)", "6"), "Bofferding 2010 conference paper 'Addition and subtraction with negatives' p.1, reporting Murray 1985, Vlassis 2004/2008, Tatsuoka 1983"),
    Row("sign-of-first-number-kept", ("-3 + 7", "-4"), "Bofferding 2010 conference paper 'Addition and subtraction with negatives' p.1, reporting Murray 1985, Vlassis 2004/2008, Tatsuoka 1983 (Tatsuoka's rule; example is ours)"),
    Row("neg-times-neg-stays-neg", ("(-3)*(-4)", "-12"), "Booth, Barbieri, Eyer & Pare-Blagoev 2014, J. Problem Solving 7 (Persistent and pernicious errors) (negatives); Gallardo 2002; from memory"),
    Row("subtraction-treated-as-commutative", ("5 - x", "x - 5"), "Booth, Barbieri, Eyer & Pare-Blagoev 2014, J. Problem Solving 7 (Persistent and pernicious errors) (read in a summary)"),
    Row("smaller-from-larger", ("3 - 8", "5"), "Brown & Burton 1978 / VanLehn 1990 (subtraction bugs); from memory"),
    # -- like terms
    Row("unlike-terms-joined", ("3x + 4", "7x"), "Kuchemann 1981, in Hart (ed.) Children's Understanding of Mathematics 11-16 (CSMS); Booth 1984; conjoining named in Pournara, Hodgen, Sanders & Adler 2016, Pythagoras 37(1) a334, abstract; from memory"),
    Row("sum-read-as-product", ("5 + x", "5x"), "Booth, Barbieri, Eyer & Pare-Blagoev 2014, J. Problem Solving 7 (Persistent and pernicious errors) (read in a summary)"),
    Row("number-minus-term-joined", ("9 - 2x", "7x"), "Kuchemann 1981, in Hart (ed.) Children's Understanding of Mathematics 11-16 (CSMS); Pournara 2020 SAJS 116(9/10); from memory"),
    Row("one-x-vanishes", ("4x - x", "4"), "Kuchemann 1981, in Hart (ed.) Children's Understanding of Mathematics 11-16 (CSMS); Tirosh, Even & Robinson 1998; from memory"),
    Row("like-terms-gain-a-square", ("3x + 2x", "5x^2"), "Pournara, Hodgen, Sanders & Adler 2016, Pythagoras 37(1) a334, abstract: 'inappropriate application of the addition law of exponents'"),
    Row("different-letters-joined", ("2x + 5y", "7xy"), "Kuchemann 1981, in Hart (ed.) Children's Understanding of Mathematics 11-16 (CSMS); from memory"),
    Row("coefficients-multiplied-not-added", ("3x + 5x", "15x"), "Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    # "2x at x = 3" is no line: the 3 is given by the problem.
    Row("substitution-by-juxtaposition", ("2x", "23"), "Kuchemann 1981; Booth 1984 (letter evaluated as a digit); from memory", (("x", "3"),)),
    # -- distribution
    Row("first-term-only", ("3(x + 2)", "3x + 2"), "Matz 1982, in Sleeman & Brown (eds.) Intelligent Tutoring Systems, ch. 2; Sleeman 1984, Cognitive Science 8:387-412; from memory"),
    Row("second-term-only", ("4(x + 5)", "x + 20"), "Kuchemann 1981, in Hart (ed.) Children's Understanding of Mathematics 11-16 (CSMS) (item: multiply n+5 by 4); from memory"),
    Row("factor-added", ("3(x + 2)", "x + 5"), "Sleeman 1984, Cognitive Science 8:387-412; from memory"),
    Row("bracket-joined-first", ("2(x + 3)", "6x"), "Kuchemann 1981, in Hart (ed.) Children's Understanding of Mathematics 11-16 (CSMS); from memory"),
    Row("negative-reaches-first-term-only", ("-(x - 5)", "-x - 5"), "Pournara, Hodgen, Sanders & Adler 2016, Pythagoras 37(1) a334, abstract names 'negatives and brackets'; from memory"),
    Row("negative-factor-second-sign-lost", ("-2(x + 3)", "-2x + 6"), "Booth, Barbieri, Eyer & Pare-Blagoev 2014, J. Problem Solving 7 (Persistent and pernicious errors); from memory"),
    Row("minus-times-minus-in-bracket", ("5 - 2(x - 4)", "5 - 2x - 8"), "Booth, Barbieri, Eyer & Pare-Blagoev 2014, J. Problem Solving 7 (Persistent and pernicious errors); Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    Row("subtract-before-bracket", ("7 - 2(x + 3)", "5(x + 3)"), "Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    Row("factor-spread-over-a-product", ("2(5x)", "10*2x"), "Matz 1982, in Sleeman & Brown (eds.) Intelligent Tutoring Systems, ch. 2; from memory"),
    Row("square-spread-over-a-sum", ("(x + 3)^2", "x^2 + 9"), "Matz 1982, in Sleeman & Brown (eds.) Intelligent Tutoring Systems, ch. 2; from memory"),
    # -- equality run-on
    Row("running-equals", ("7 + 3 + 3 - 8", "7 + 3 = 10 + 3 = 13 - 8 = 5"), "Kieran 1981, Educ. Studies in Math. 12 (example read in a summary)"),
    # The box of the table is typed as a letter.
    Row("answer-comes-next", ("8 + 4 = x + 5", "x = 12"), "Carpenter, Franke & Levi 2003, Thinking Mathematically, table (grades 1-2/3-4/5-6 answering 12: 58/49/76 %; correct 7: 5/9/2 %)"),
    # The box of the table is typed as a letter.
    Row("answer-then-carry-on", ("4 + 3 + 2 = x + 2", "4 + 3 + 2 = 9 + 2 = 11"), "Capraro & Capraro (read in a report)"),
    Row("solution-chain-on-one-line", ("2x + 3 = 11", "2x + 3 = 11 - 3 = 8 / 2 = 4"), "Kieran 1981; Knuth, Stephens, McNeil & Alibali 2006; from memory"),
    Row("identity-called-x-equals-0", ("2(3x + 4) = 6x + 8", "x = 0"), "Huntley, Marcus, Kahan & Miller 2007 (only 43 % of HS pairs correct on this item: READ in a table of assessment items; the wrong form is ours); from memory"),
    Row("contradiction-called-a-solution", ("2(3x + 4) = 6x + 9", "x = 1"), "Huntley et al. 2007 (59 % correct: READ in a table of assessment items; the wrong form is ours); from memory"),
    # -- fraction
    Row("tops-and-bottoms-added", ("1/2 + 1/3", "2/5"), "Siegler, Thompson & Schneider 2011; Braithwaite, Pyke & Siegler 2017 (whole-number bias); from memory"),
    # "~ ?" asks for an estimate: the sum stands alone here.
    Row("tops-only-added", ("12/13 + 7/8", "19"), "Lortie-Forgues, Tian & Siegler 2015, Developmental Review p.3 (NAEP 1978: 24 % chose 2; 19 most common)"),
    Row("larger-denominator-kept", ("3/5 + 3/10", "6/10"), "common practice, no source"),
    Row("whole-number-multiplies-both-parts", ("3*(2/5)", "6/15"), "Siegler & Pyke 2013; from memory"),
    Row("cancel-through-a-sum", ("(3x + 6)/3", "x + 6"), "Matz 1982, in Sleeman & Brown (eds.) Intelligent Tutoring Systems, ch. 2; from memory"),
    Row("cancel-a-term", ("(x + 4)/4", "x"), "Matz 1982, in Sleeman & Brown (eds.) Intelligent Tutoring Systems, ch. 2; from memory"),
    Row("fraction-coefficient-multiplied-again", ("(2/3)x = 8", "x = 16/3"), "Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    Row("denominator-divided-not-multiplied", ("2x/3 = 8", "2x = 8/3"), "Payne & Squibb 1990, Cognitive Science 14:445-481; from memory"),
    # -- exponent
    Row("square-as-double", ("5^2", "10"), "Pitta-Pantazi, Christou & Zachariades 2007; 'inability to calculate exponents' in Sevgi et al., SAGE Open (exponent misconceptions, 150 middle-school students), abstract, doi 10.1177/21582440261449038; from memory"),
    Row("cube-as-triple", ("2^3", "6"), "common practice, no source"),
    Row("base-and-exponent-swapped", ("2^3", "9"), "Sevgi et al., SAGE Open (exponent misconceptions, 150 middle-school students), abstract, doi 10.1177/21582440261449038 (example is ours)"),
    Row("minus-inside-the-power", ("-3^2", "9"), "Sevgi et al., SAGE Open (exponent misconceptions, 150 middle-school students), abstract, doi 10.1177/21582440261449038; Cangelosi et al. 2013 (example is ours)"),
    Row("coefficient-squared-too", ("3.14*2^2", "(3.14*2)^2"), "Matz 1982, in Sleeman & Brown (eds.) Intelligent Tutoring Systems, ch. 2; from memory"),
    Row("root-as-half", ("sqrt(36)", "18"), "Matz 1982, in Sleeman & Brown (eds.) Intelligent Tutoring Systems, ch. 2; from memory"),
    Row("sum-of-squares-rooted-termwise", ("sqrt(3^2 + 4^2)", "7"), "Matz 1982, in Sleeman & Brown (eds.) Intelligent Tutoring Systems, ch. 2; from memory"),
    Row("hypotenuse-without-root", ("sqrt(3^2 + 4^2)", "25"), "Matz 1982, in Sleeman & Brown (eds.) Intelligent Tutoring Systems, ch. 2; from memory"),
    # -- arithmetic slip
    Row("fact-slip", ("7*8", "54"), "Booth, Barbieri, Eyer & Pare-Blagoev 2014, J. Problem Solving 7 (Persistent and pernicious errors) (read in a summary) (arithmetic errors coded separately; example is ours)"),
    Row("copy-slip", ("3x + 15 = 42", "3x + 15 = 24"), "Sleeman 1984, Cognitive Science 8:387-412 abstract: 'clerical' error class"),
    Row("left-to-right-only", ("2 + 3*4", "20"), "Booth 1984; Linchevski & Livneh 1999; from memory"),
    Row("early-rounding", ("3.14*2.5*2", "8*2"), "common practice, no source"),
    Row("place-value-slip", ("2.5*2.5", "62.5"), "common practice, no source"),
)
# fmt: on
