"""The reference page, grammar/language.md, made from the tables: `python -m procsheet.syntax.reference` prints it."""

import re
from typing import Iterator

from procsheet.findings import Finding
from procsheet.source import source
from procsheet.syntax import clauses, properties, statements, verbs
from procsheet.syntax.data import parse_data, parse_plant
from procsheet.syntax.parse import parse_method

HEAD = """# The method language

Everything that may be written, each with a right example, a wrong one, and what is said of the wrong one.
Two pages to begin with are in [guide.md](guide.md). This page is made from the program's own lists, and every example on it is read by it.

## How to read this page

- One statement a line. A line that stands deeper than a step goes on with that step. Commas between clauses change nothing.
- `#` begins a comment that is never printed; ` -- ` or a long dash begins a remark that is.
- In a form, V and W are vessels, X is what is added, T a temperature, t a time, P a pressure, Q an amount, R a range, S a named step, E an end point.
  What stands in [brackets] may be left out.
- Figures: `75-80 °C`, `20 to 25 °C`, `5.5 ± 0.2`, `about 25 °C`, `below 40 °C`, `at most 5 min`, `40 °C or less`; `?` where a figure, tool or material is open.
"""
WHAT_IS_ADDED = """### What may stand for X

`A`, `A and B`, `A, B and C`, `A except "x" and "y"`, `"x"`, `"x" and "y" from B`, `half of A`, `1/3 of "purified water" from A`, `20 % of A`,
`the rest of A`, `the hold-back`, a vessel, `?`.
"""
FRAME = """product Reference
type gel
basis 1 kg
phase A: water
    to 100 %  purified water
    0.20 %    xanthan gum
    1.00 %    glycerin
{rows}phase D
    as needed, at most 1 %  citric acid
{formula}{places}vessel main
vessel side
vessel pail
mould bars
mould pan
container can
method
    cool side to 25 °C called cooling
{steps}    fill main
{end}"""


# ---- the page


def page() -> str:
    """The whole page."""
    return "\n".join(_page()).rstrip() + "\n"


def _page() -> Iterator[str]:
    yield HEAD
    yield from _section("The header", "a line of the header", properties.HEADER, header_example)
    yield "The type is one of: " + ", ".join(properties.TYPES) + ".\n"
    yield "## The formula\n"
    for statement in statements.ROWS:
        yield from _statement(statement.form, statement.meaning, statement.example, statement.wrong,
                              method_with(statement, statement.wrong))
    yield "## The parts of a method\n"
    yield "In this order: header, phases, overrides, vessels, method, limits, as a material, pack, accept.\n"
    for statement in statements.PARTS:
        yield from _statement(statement.form, statement.meaning, statement.example, statement.wrong,
                              method_with(statement, statement.wrong))
    yield from _steps()
    yield from _clauses()
    yield from _lists()
    yield from _section("Materials", "a line of a material", properties.MATERIAL, material_example)
    grades = ", ".join(f"({grade})" for grade in properties.GRADES[:-1])
    yield f'Figures carry where they come from: `from "source"` and how good that is: {grades}; or `from memory`.\n'
    yield from _section("Plants", "a line of a plant", properties.PLANT, plant_example)
    yield from _section("The vessels of a plant", "a line below a vessel", properties.KETTLE, kettle_example)
    yield from _section("Rules of a plant", "a line below a rule", properties.RULE, rule_example)
    yield from _section("Packs", "a line below a pack", properties.PACK, pack_example)


def _statement(form: str, meaning: str, right: str, wrong: str, text: str) -> Iterator[str]:
    yield f"### `{form}`\n"
    yield f"{meaning[:1].upper()}{meaning[1:]}.\n" if meaning else ""
    yield _block("Right", right)
    yield _block("Wrong", wrong)
    yield _said(findings(text)[0])


def _block(name: str, text: str) -> str:
    return f"{name}:\n\n" + "\n".join(f"    {line}" for line in text.split("\n")) + "\n"


def _said(finding: Finding) -> str:
    return f"> {finding.title}. {finding.fix}\n"


def _section(title: str, what: str, table: tuple[properties.Property, ...], example) -> Iterator[str]:
    """A table of lines with a key: how each is written, what it means, how it is written wrong, and what is said of that."""
    yield f"## {title}\n"
    yield f"| {what} | meaning | wrong | what is said |\n|---|---|---|---|"
    for row in table:
        wrong = slip_of(row)
        finding = findings(example(wrong), example)[0]
        yield f"| `{row.example}` | {row.meaning} | `{wrong}` | {finding.title}. {finding.fix} |"
    yield ""


def slip_of(row: properties.Property) -> str:
    """A line of the table written wrong: without its unit, without its value, or misspelt."""
    if row.wrong:
        return row.wrong
    if row.numeric == "number":
        return f"{row.name} 5 %"
    if row.numeric:
        return f"{row.name} {re.search(r'-?[0-9][0-9.]*(?:-[0-9.]+)?', row.example)[0]}"
    alone = row.form == row.name or row.form.startswith(f"{row.name} [")
    return row.name[:-3] + row.name[-2:] if alone else row.name


def _steps() -> Iterator[str]:
    yield "## Steps\n"
    yield "A step: a verb, what it works on, then clauses in any order.\n"
    yield WHAT_IS_ADDED
    for group in verbs.GROUPS:
        yield f"## Steps: {group}\n"
        for verb in verbs.VERBS:
            if verb.group == group:
                also = f" Also written: {', '.join(verb.also)}." if verb.also else ""
                yield from _statement("`, `".join(verb.forms), verb.meaning + also.rstrip("."), verb.example, verb.wrong,
                                      step_with(verb.wrong))


def _clauses() -> Iterator[str]:
    for question in clauses.QUESTIONS:
        yield f"## Clauses: {question}\n"
        rows = [(phrases, meaning) for _, phrases, asked, meaning in clauses.PHRASES if asked == question]
        if rows:
            yield "| written | meaning |\n|---|---|"
            for phrases, meaning in rows:
                yield f"| {', '.join(f'`{phrase}`' for phrase in phrases)} | {meaning} |"
            yield ""
        for row in clauses.CLAUSES:
            if row.question == question:
                yield from _statement(row.example, row.meaning, f"add C to main {row.example}", f"add C to main {row.wrong}",
                                      step_with(f"add C to main {row.wrong}"))


def _lists() -> Iterator[str]:
    yield "## End points, tools and properties\n"
    ends = ", ".join(_with_also(clauses.STATES))
    yield f"End points behind `until`: {ends}; or anything you see, in double quotes; or a property with its value.\n"
    yield "Stirrers: " + ", ".join(clauses.STIRRERS) + ".\n"
    tools = ", ".join(_with_also(clauses.HIGH_SHEAR))
    yield f"High-shear tools, beside the stirrer: {tools}. Any other tool stands in double quotes, as the plant lists it.\n"
    yield "| property | for example |\n|---|---|"
    for row in properties.MEASURED:
        yield f"| {', '.join((row.name, *row.also))} | `{row.name} {row.example}` |"
    yield ""


def _with_also(table: dict[str, tuple[str, ...]]) -> list[str]:
    return [f"{word} ({', '.join(also)})" if also else word for word, also in table.items()]


# ---- the examples, each in a method of its own


def step_with(step: str) -> str:
    """A method with this step."""
    return _method(rows="phase C\n    1.00 %    fragrance\n", steps=_indented(step))


def method_with(statement: statements.Statement, text: str) -> str:
    """A method with this statement in its place."""
    if statement.part == "row":
        return _method(rows=_indented(text))
    if statement.part == "row below":
        return _method(rows=_indented(f"12.00 %  mineral oil\n{text}"))
    if statement.part in ("phase", "places"):
        return _method(formula=f"{text}\n") if statement.part == "phase" else _method(places=f"{text}\n")
    if statement.part == "blocks":
        return _method(steps=text + "\n" if text.startswith("stage") else _indented(text))
    if statement.part == "accept":
        return _method(end=text + "\n")
    return _method(end=f"{statement.form if statement.part != 'pack' else 'pack ' + chr(34) + '75 mL tube' + chr(34)}\n{_indented(text)}")


def header_example(line: str) -> str:
    key = next((row.name for row in properties.HEADER if line.startswith(row.name)), "")
    kept = [written for written in FRAME.split("\n")[:3] if not key or not written.startswith(key)]
    return "\n".join([line, *kept, *_method().split("\n")[3:]])


def material_example(line: str) -> str:
    return f"material example\n    {line}\n"


def plant_example(line: str) -> str:
    return f"plant Example\n{line}\n"


def kettle_example(line: str) -> str:
    return f"plant Example\nvessel K60\n    {line}\n"


def rule_example(line: str) -> str:
    return f"plant Example\nrule equal-temps\n    {line}\n"


def pack_example(line: str) -> str:
    return _method(end=f'pack "75 mL tube"\n    {line}\n')


def _method(rows: str = "", formula: str = "", places: str = "", steps: str = "", end: str = "") -> str:
    return FRAME.format(rows=rows, formula=formula, places=places, steps=steps, end=end)


def _indented(text: str) -> str:
    return "".join(f"    {line}\n" for line in text.split("\n"))


PARSERS = {material_example: parse_data, plant_example: parse_plant, kettle_example: parse_plant, rule_example: parse_plant}


def findings(text: str, made_by=None) -> tuple[Finding, ...]:
    """What is found in an example."""
    return PARSERS.get(made_by, parse_method)(source("example", text)).findings


if __name__ == "__main__":
    print(page(), end="")
