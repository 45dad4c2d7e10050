"""Answers that are no answers: objects that act as the right value, values without end, the key itself."""

from tests.instructor.hostile.case import FIRST, Case

KIND = "is not an answer"
CLASS = "class Sly{base}:\n    {body}\nvalue = Sly({made})"


def sly(body: str, base: str = "", made: str = "") -> str:
    """A cell that makes `value`, an object of a class of its own."""
    return CLASS.format(body=body, base=base, made=made)


def of_value(says: str, cell: str, **more) -> Case:
    """The answer is `value`, as the cell leaves it."""
    return Case(says, cell=cell, answer="value", **more)


VALUES = {
    "hostile __eq__": of_value(KIND, sly("__eq__ = lambda self, other: True")),
    "hostile __float__": of_value(KIND, sly("__float__ = lambda self: 1 / 0")),
    "hostile __repr__": of_value(KIND, sly("__repr__ = lambda self: RIGHT", "(float)", "1.0")),
    "hostile __class__": of_value(KIND, sly("__class__ = property(lambda self: float)")),
    "hostile text": of_value(KIND, sly("__len__ = lambda self: 3", "(str)", "'1.00 mm'")),
    "hostile __getattribute__": of_value(KIND, sly("__getattribute__ = lambda self, name: 1 / 0")),
    "poses as a number of numpy": of_value(
        "RecursionError", "import numbers\n" + sly("__module__ = 'numpy'; item = lambda self: self")
        + "\nnumbers.Real.register(Sly)"),
    "poses as a quantity": of_value("Error", sly("__module__ = 'pint'; magnitude = 1.0; units = 7")),
    "module of no name": of_value("Error", sly("__module__ = 7")),
    "not a number": of_value("not finite", "value = float('nan')"),
    "infinity": of_value("not finite", "value = float('-inf')"),
    "infinity, typed": Case("Nothing is lost", answer="1e999 mm"),
    "complex": of_value(KIND, "value = 3 + 4j"),
    "an integer of 100,000 figures": of_value("far too large", "value = 10 ** 100_000"),
    "true": of_value(KIND, "value = True"),
    "a huge array": of_value(KIND, "import numpy\nvalue = numpy.zeros(10**7)"),
    "an array of objects": of_value(KIND, "import numpy\nvalue = numpy.array([print], dtype=object)"),
    "a list 10,000 deep": of_value(KIND, "value = []\nfor _ in range(10_000):\n    value = [value]"),
    "a list in itself": of_value(KIND, "value = []\nvalue.append(value)"),
    "brackets 10,000 deep, typed": Case("characters long", answer="[" * 10_000),
    "a callable": of_value(KIND, "value = print"),
    "an endless generator": of_value(KIND, "import itertools\nvalue = itertools.count()"),
    "a unit of 10 MB": of_value("characters long", "value = '3 ' + 'm' * 10**7"),
    "text of half a character": of_value("Nothing is lost", "value = '1.00 \\ud800'"),
    "a pattern's worst case": Case("Nothing is lost", answer="1 .1 ,1 " * 24 + "x"),
    "a script": Case("Nothing is lost", answer="'<script>alert(1)</script>'"),
    "an answer that works without end": Case("its cells took more than", FIRST, answer="sum(iter(int, 1))"),
    "the workbench's own solution": Case(
        "calls the package's own key", 6, cell="import workbench",
        answer="workbench.solution('measuring_screw.short')"),
    "the exercise's own right": Case("calls the package's own key", 6, answer=(
        "'%.2f mm' % exercises.find('measuring_screw.short').right(numbers)"), cell=(
        "import os\nfrom workbench import exercises\n"
        "numbers = exercises.find('measuring_screw.short').variant(int(os.environ['WORKBENCH_CANDIDATE']))")),
    "the exercise's own right for another": Case("calls the package's own key", answer=(
        "'%.2f mm' % exercises.find('measuring_screw.short').right(numbers)"), cell=(
        "from workbench import exercises\nnumbers = exercises.find('measuring_screw.short').variant(PEER)")),
    "the package loaded in an answer cell": Case(
        "calls the package's own calculation", answer="1.00 mm\nimport workbench.screws.measuring"),
}
