"""The shape of the tree: its top level, its import order through foreign keys, its templates and static files."""

import ast
import importlib
import re
import subprocess
from collections import Counter
from collections.abc import Iterator
from configparser import ConfigParser
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from django.apps import apps
from django.db.models import Field, ForeignObjectRel, Model

from weighin.rules.faults import Sentence, placeholders

ROOT = Path(__file__).resolve().parent.parent
TOP = {"README.md", "DEVELOPERS.md", "manage.py", "weighin", "templates", "tests", "demo", "requirements.txt"}
ORDER = [
    {"scale"}, {"rehearsal"},
    {"public", "operations"}, {"safekeeping"}, {"privacy"}, {"workbooks"}, {"book"}, {"agency"}, {"seasons"}, {"reports"},
    {"advice"}, {"mortality"}, {"schedule"}, {"signup"}, {"proof"}, {"registration"}, {"standings"}, {"care"}, {"holding"}, {"tanks"},
    {"planning"}, {"stations"}, {"line"}, {"slips"}, {"scales"}, {"checkin"}, {"roster"}, {"records"}, {"events"},
    {"clubs"}, {"accounts"}, {"letters"}, {"audit"}, {"ui"}, {"rules", "livewell", "survival", "serving"},
]  # fmt: skip
MOST_LINES, MOST_LINES_OF_AN_APP, MOST_FILES = 400, 4300, 16
OUTSIDE = {"weighin/__init__.py", "weighin/settings.py", "weighin/environment.py", "weighin/wsgi.py"}
ASKS_THE_DATABASE = {
    "filter", "exclude", "get", "values", "values_list", "order_by", "annotate", "aggregate", "only", "defer", "update",
    "prefetch_related", "select_related", "Prefetch", "Count", "Exists", "F", "Max", "Min", "OuterRef", "Q", "Sum",
}  # fmt: skip
ROWS = {"event", "entry", "held", "season", "water", "user", "team", "slip", "day", "club"}
JUNK_DRAWERS = {"utils", "util", "helpers", "helper", "common", "core", "misc"}


def tracked() -> list[Path]:
    """Files of the project: those git tracks, or everything but dotfiles outside a checkout."""
    done = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode == 0 and done.stdout:
        return [Path(line) for line in done.stdout.splitlines()]
    return [
        p.relative_to(ROOT)
        for p in ROOT.rglob("*")
        if p.is_file() and not any(x.startswith(".") or x == "node_modules" for x in p.relative_to(ROOT).parts)
    ]


def level(app: str) -> int:
    return next(number for number, apps_of_level in enumerate(ORDER) if app in apps_of_level)


def foreign_keys() -> Iterator[tuple[str, str, str]]:
    for model in ours():
        for field in model._meta.get_fields():
            if isinstance(field, Field) and not isinstance(field, ForeignObjectRel) and field.related_model:
                other = field.related_model
                if not isinstance(other, str) and other.__module__.startswith("weighin."):
                    yield model._meta.app_label, other._meta.app_label, f"{model.__name__}.{field.name}"


def reverse_names() -> Iterator[tuple[str, str]]:
    """Names by which a row reaches rows of another app that refer to it, with that app."""
    for model in ours():
        for relation in model._meta.related_objects:
            app = relation.related_model._meta.app_label
            if app != model._meta.app_label:
                yield relation.get_accessor_name() or relation.name, app
                yield relation.name, app


def ours() -> list[type[Model]]:
    return [model for model in apps.get_models() if model.__module__.startswith("weighin.")]


def declared() -> dict[str, set[str]]:
    """What the classes of each app say of themselves: their fields, properties and functions."""
    found: dict[str, set[str]] = {app: set() for app in set().union(*ORDER)}
    for app, _, tree in in_an_app():
        for body in (node.body for node in ast.walk(tree) if isinstance(node, ast.ClassDef)):
            found[app] |= {s.target.id for s in body if isinstance(s, ast.AnnAssign) and isinstance(s.target, ast.Name)}
            found[app] |= {
                t.id for s in body if isinstance(s, ast.Assign) for t in s.targets if isinstance(t, ast.Name)
            }
            found[app] |= {s.name for s in body if isinstance(s, ast.FunctionDef)}
    return found


def asked_names(tree: ast.AST, own: set[str]) -> Iterator[tuple[int, str]]:
    """Attributes, and the fields that are named in queries, each with its line.

    An attribute that a class of the app declares is its ``own``, but where a row of another app is asked.
    """
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute):
            asked = node.value.attr if isinstance(node.value, ast.Attribute) else getattr(node.value, "id", "")
            if node.attr not in own or asked in ROWS:
                yield node.lineno, node.attr
        if isinstance(node, ast.Call):
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if called in ASKS_THE_DATABASE:
                texts = [a.value for a in node.args if isinstance(a, ast.Constant) and isinstance(a.value, str)]
                for text in [*texts, *(word.arg for word in node.keywords if word.arg)]:
                    for name in text.lstrip("-").split("__"):
                        yield node.lineno, name


def texts_of(tree: ast.AST) -> Iterator[tuple[int, str]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.lineno, node.value


@cache
def in_an_app() -> list[tuple[str, Path, ast.AST]]:
    """Every module of an app, read once."""
    paths = [path for _, path in our_modules() if len(path.parts) > 2]
    return [(path.parts[1], path, ast.parse((ROOT / path).read_text(encoding="utf-8"))) for path in paths]


def contracts() -> Iterator[tuple[set[str], set[str]]]:
    """Containers and layers of every exhaustive contract."""
    read = ConfigParser()
    read.read(ROOT / ".importlinter", encoding="utf-8")
    for name in read.sections():
        if read[name].get("exhaustive") == "True":
            layers = re.findall(r"\w+", read[name]["layers"])
            yield set(read[name]["containers"].split()), set(layers)


def test_the_top_level_is_fixed() -> None:
    found = {path.parts[0] for path in tracked() if not path.parts[0].startswith(".")}
    assert found == TOP


def test_every_app_has_its_place_in_the_order() -> None:
    known = set().union(*ORDER)
    folders = {p.name for p in (ROOT / "weighin").iterdir() if (p / "__init__.py").exists()}
    assert folders <= known


def test_foreign_keys_follow_the_import_order() -> None:
    keys = list(foreign_keys())
    assert len(keys) > 15
    wrong = [name for app, other, name in keys if app != other and level(app) >= level(other)]
    assert not wrong


def test_reverse_accessors_follow_the_import_order() -> None:
    """A low app knows nothing of the tables above it, not by the name that Django gives its rows either."""
    names = set(reverse_names())
    own = declared()
    assert len(names) > 15
    wrong = [
        f"{path}:{line}: {name} is of {owner}"
        for app, path, tree in in_an_app()
        for line, name in asked_names(tree, own[app])
        for owner in sorted(other for known, other in names if known == name)
        if app != owner and level(app) >= level(owner)
    ]
    assert not wrong, "\n".join(wrong)


def test_tables_named_in_sql_follow_the_import_order() -> None:
    owners = {model._meta.db_table: model._meta.app_label for model in ours()}
    wrong = [
        f"{path}:{line}: {table} is of {owners[table]}"
        for app, path, tree in in_an_app()
        for line, text in texts_of(tree)
        for table in owners.keys() & set(re.findall(r"\w+", text))
        if app != owners[table] and level(app) >= level(owners[table])
    ]
    assert not wrong, "\n".join(wrong)


def test_every_line_stands_in_a_layer() -> None:
    held, known = Counter[bool](), list(contracts())
    homeless = []
    for path in tracked():
        if path.parts[0] != "weighin" or path.suffix != ".py" or str(path) in OUTSIDE:
            continue
        parts = path.with_suffix("").parts
        name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
        stands = name.count(".") == 1 and any("weighin" in containers for containers, _ in known)
        for containers, layers in known:
            for container in containers - {"weighin"}:
                if name == container or name.startswith(container + "."):
                    stands |= name == container or name[len(container) + 1 :].split(".")[0] in layers
        lines = (ROOT / path).read_text(encoding="utf-8").count("\n")
        held[stands] += lines
        homeless += [] if stands else [str(path)]
    assert held[True] > 20_000
    assert held[True] / held.total() == 1, f"{held[False]} lines stand in no layer: {homeless}"


def test_apps_are_small() -> None:
    lines = Counter[str]()
    for path in tracked():
        if path.parts[0] == "weighin" and path.suffix == ".py" and "migrations" not in path.parts:
            lines[path.parts[1]] += (ROOT / path).read_text(encoding="utf-8").count("\n")
    assert not {app: count for app, count in lines.items() if count > MOST_LINES_OF_AN_APP}


def test_folders_are_small() -> None:
    files = Counter(path.parent for path in tracked())
    assert not {str(folder): count for folder, count in files.items() if count > MOST_FILES}


def test_no_junk_drawers() -> None:
    assert not [p for p in tracked() if p.stem in JUNK_DRAWERS or JUNK_DRAWERS & set(p.parts)]


def test_files_are_small() -> None:
    large = []
    for path in tracked():
        if (
            path.suffix in (".py", ".js", ".css", ".html")
            and "migrations" not in path.parts
            and ".min." not in path.name
        ):
            lines = (ROOT / path).read_text(encoding="utf-8").count("\n")
            if lines > MOST_LINES:
                large.append(f"{path}: {lines} lines")
    assert not large


@pytest.mark.parametrize(
    "pattern", [r"<script(?![^>]*\bsrc=)", r"<style\b", r"\sstyle=", r"\son[a-z]+=\"", r"javascript:"]
)
def test_templates_have_no_inline_script_or_style(pattern: str) -> None:
    wrong = [
        p for p in tracked() if p.parts[0] == "templates" and re.search(pattern, (ROOT / p).read_text(encoding="utf-8"))
    ]
    assert not wrong


def test_nothing_is_asked_of_another_site() -> None:
    wrong = []
    for path in tracked():
        if path.parts[0] == "templates" or "static" in path.parts:
            if path.suffix not in (".html", ".css", ".js", ".svg"):
                continue
            text = (ROOT / path).read_text(encoding="utf-8")
            for address in re.findall(r"""(?:src|href|url|action)\s*[=(]\s*["']?(https?:)?//[^\s"')]+""", text):
                wrong.append((str(path), address))
    assert not wrong


def test_the_readme_names_every_command() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    commands = {p.stem for p in tracked() if p.parent.name == "commands" and p.stem != "__init__"}
    assert commands
    assert not [name for name in commands if f"`{name}" not in readme]


def our_modules() -> Iterator[tuple[str, Path]]:
    for path in tracked():
        if path.parts[0] == "weighin" and path.suffix == ".py" and "migrations" not in path.parts:
            parts = path.with_suffix("").parts
            yield ".".join(parts[:-1] if parts[-1] == "__init__" else parts), path


def said_by(call: ast.Call, module: object) -> Sentence | None:
    """The sentence of ``SENTENCE.at(...)``, ``.wrong(...)`` or ``.says(...)``."""
    if not isinstance(call.func, ast.Attribute) or call.func.attr not in ("at", "wrong", "says"):
        return None
    names = ast.unparse(call.func.value).split(".")
    found = module
    for name in names:
        found = getattr(found, name, None)
    return found if isinstance(found, Sentence) else None


def test_every_fault_is_a_sentence_with_a_code() -> None:
    """No text put together on the spot, and no error made into one."""
    wrong = []
    for _, path in our_modules():
        tree = ast.parse((ROOT / path).read_text(encoding="utf-8"))
        for call in (node for node in ast.walk(tree) if isinstance(node, ast.Call)):
            arguments = [ast.unparse(argument) for argument in call.args]
            if ast.unparse(call.func) == "Fault" and any(
                said.startswith(("str(", "f'", "'")) for said in arguments[1:2]
            ):
                wrong.append(f"{path}:{call.lineno}")
    assert wrong == []


def test_every_sentence_has_a_code_of_its_own_and_gets_its_parameters() -> None:
    sentences: dict[int, Sentence] = {}
    wrong = []
    for name, path in our_modules():
        source = (ROOT / path).read_text(encoding="utf-8")
        if "faults import" not in source and ".at(" not in source:
            continue
        module = importlib.import_module(name)
        sentences |= {id(value): value for value in vars(module).values() if isinstance(value, Sentence)}
        for call in (node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call)):
            sentence = said_by(call, module)
            given = {keyword.arg for keyword in call.keywords}
            if sentence and None not in given and given != placeholders(sentence):
                wrong.append(f"{path}:{call.lineno}: {sentence.code} takes {sorted(placeholders(sentence))}")
    on_pages = [sentence for sentence in sentences.values() if sentence.on_pages]
    assert on_pages and all(placeholders(replace(one, text=one.on_pages)) == placeholders(one) for one in on_pages)
    codes = Counter(sentence.code for sentence in sentences.values())
    assert not wrong
    assert [code for code, times in codes.items() if times > 1 or not re.fullmatch(r"[a-z][a-z0-9_]+", code)] == []
