"""Our scripts and styles without what only readers need, since a lake's link is thin: comments, indents, spaces round signs."""

import re
from collections.abc import Iterator

# What stands in a script as it is: texts and patterns; and what goes: comments, but for a licence's (/*!)
TEXT = re.compile(r'"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'')
PATTERN = re.compile(r"/(?![*/])(?:\\.|\[(?:\\.|[^\]\\\n])*\]|[^/\\\n\[])+/[a-z]*")
COMMENT = re.compile(r"/\*(?!!).*?\*/|//[^\n]*", re.S)
LICENCE = re.compile(r"/\*!.*?\*/", re.S)
BEFORE_A_PATTERN = re.compile(r"(?:^|[(,=>:\[!&|?{};]|\breturn)\s*\Z")
KEPT = "\0"
# A line's end is not needed behind a sign that ends nothing by itself, nor before one that begins nothing
LINE_ENDS = re.compile(r"(?<=[;{,(\[=?:&|])\n|\n(?=[}),;.?:&|\]])")
ROUND_SIGNS = re.compile(r" ?([{}()\[\];,=<>*?:&|!%]+|(?<![+-]) [+-](?= [^+-])) ?")
ONE_PARAMETER = re.compile(r"(?<![\w$])\((\w+)\)=>")
NEEDLESS = re.compile(r"[;,](?=})|,(?=[\])])")
TRUTH = re.compile(r"(?<![\w$.])(true|false)(?![\w$:])")
# Where statements begin and end, for those that declare
STEPS = re.compile(r"(?<![^;{}\n])(const|let)(?=[ \[{])|[;{}()\[\]\n]")

STYLE_COMMENT = re.compile(r"[ \t]*/\*(?!!).*?\*/", re.S)
STYLE_LINES = re.compile(r"^[ \t]*/\*(?!!)(?:(?!\*/).)*\*/[ \t]*\n|^[ \t]+|^\n", re.S | re.M)
ROUND_STYLE = re.compile(r" ?([{};>]) ?|([:,]) (?=\S)")


def lean_style(text: str) -> str:
    """A style sheet with every rule it has."""
    bare = STYLE_COMMENT.sub("", STYLE_LINES.sub("", text))
    joined = re.sub(r"(?<=[{};,])\n", "", ROUND_STYLE.sub(lambda found: found[1] or found[2], bare))
    return joined.replace(";}", "}")


def lean_script(text: str) -> str:
    """A script that does the same; texts, patterns and templates are as they were written, and statements end in signs.

    >>> lean_script('const a = (b) => {\\n  return "c = d";   // why\\n};\\n')
    'const a=b=>{return "c = d"};'
    >>> lean_script("const a = 1;\\nconst { b } = f(true);\\nlet c = 2;\\n")
    'const a=1,{b}=f(!0);let c=2;'
    """
    kept: list[str] = []
    code = ""
    for piece, stays in _pieces(text):
        if stays:
            kept.append(piece)
        code += KEPT if stays else piece
    code = re.sub(r"\s*\n\s*", "\n", re.sub(r"[ \t]+", " ", code)).strip()
    code = ROUND_SIGNS.sub(lambda found: found[1].strip(), LINE_ENDS.sub("", code))
    code = NEEDLESS.sub("", _together(ONE_PARAMETER.sub(r"\1=>", LINE_ENDS.sub("", code))))
    code = TRUTH.sub(lambda found: "!0" if found[1] == "true" else "!1", code)
    stays_in_order = iter(kept)
    return re.sub(KEPT, lambda _: next(stays_in_order), code)


def _together(code: str) -> str:
    """One ``const`` or ``let`` for those that follow one another."""
    made, at = "", 0
    declares = [""]  # of the statement that goes on, for each bracket that is open
    for found in STEPS.finditer(code):
        sign = found[0]
        if found[1]:
            declares[-1] = found[1]
        elif sign in "([{":
            declares.append("")
        elif sign in ")]}":
            declares.pop()
        elif sign == "\n":
            declares[-1] = ""
        elif declares[-1] and re.match(rf"{declares[-1]}(?=[ \[{{])", code[found.end() : found.end() + 6]):
            made += code[at : found.start()] + ","
            at = found.end() + len(declares[-1])
            at += code[at] == " "
        else:
            declares[-1] = ""
    return made + code[at:]


def _pieces(text: str) -> Iterator[tuple[str, bool]]:
    """The script in pieces, each with whether it stays as it is; comments are left out."""
    at = since = 0
    while at < len(text):
        sign = text[at]
        found = None
        if sign in "\"'":
            found = TEXT.match(text, at)
        elif sign == "/":
            comment = COMMENT.match(text, at)
            if comment:
                yield text[since:at], False
                since = at = comment.end()
                continue
            found = LICENCE.match(text, at)
            if not found and BEFORE_A_PATTERN.search(text[max(0, at - 40) : at]):
                found = PATTERN.match(text, at)
        end = found.end() if found else _after_template(text, at) if sign == "`" else at
        if end > at:
            yield text[since:at], False
            yield text[at:end], True
            since = end
        at = max(end, at + 1)
    yield text[since:], False


def _after_template(text: str, at: int) -> int:
    """Where the template that begins at ``at`` ends; its values may hold texts and templates of their own."""
    at += 1
    while text[at] != "`":
        if text[at] == "\\":
            at += 2
        elif text.startswith("${", at):
            at = _after_value(text, at + 2)
        else:
            at += 1
    return at + 1


def _after_value(text: str, at: int) -> int:
    depth = 1
    while depth:
        found = TEXT.match(text, at)
        if found:
            at = found.end()
        elif text[at] == "`":
            at = _after_template(text, at)
        else:
            depth += {"{": 1, "}": -1}.get(text[at], 0)
            at += 1
    return at
