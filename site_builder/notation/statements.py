"""Statements as JavaScript: what is bound once is const, the rest let, at its first place."""

from __future__ import annotations

import ast
import functools
from collections import Counter

from site_builder.notation.expressions import CALL, OPERATORS, Expressions, safe
from site_builder.notation.kinds import Kinds
from site_builder.notation.source import Source, stored

IN_FORMULAS = "assignments and one return; mark it @procedure to use more"
IN_PROCEDURES = "assignment, if, for, while, append, break, continue, return"


class Statements:
    """Writes the statements of one source."""

    def __init__(self, source: Source, kinds: Kinds, formula: bool) -> None:
        self.source, self.formula = source, formula
        self.expressions = Expressions(source, kinds)
        self.kinds = kinds
        self.declared = set(source.parameters)
        self.bindings = sum(map(_bindings, source.tree.body), Counter[str]())

    def parameters(self) -> list[str]:
        """Write the arguments, with the values of those that may be left out."""
        names, defaults = list(self.source.parameters), self.source.tree.args.defaults
        values = [""] * (len(names) - len(defaults))
        values += [" = " + self.expressions.text(value) for value in defaults]
        return [safe(name) + value for name, value in zip(names, values, strict=True)]

    def written(self, body: list[ast.stmt], indent: str) -> str:
        """Write the body of the function, its far names declared first."""
        if self.formula:
            self._check_form(body)
        far = sorted(set(self.bindings) - _first_direct(body) - self.declared - self._kept_in_loops)
        self.declared |= set(far)
        head = f"{indent}let {', '.join(map(safe, far))};\n" if far else ""
        return head + self._block(body, indent, outermost=True)

    def _check_form(self, body: list[ast.stmt]) -> None:
        for place, each in enumerate(body):
            last = place == len(body) - 1
            if not isinstance(each, ast.Return if last else ast.Assign | ast.AnnAssign):
                raise self.source.refused(each, IN_FORMULAS)

    @functools.cached_property
    def _kept_in_loops(self) -> set[str]:
        """Give the names that live only inside the loops that bind them."""
        nodes = self.source.nodes
        loops = [node for node in nodes if isinstance(node, ast.For)]
        if not loops:
            return set()
        kept = set()
        bound = {name for loop in loops for name in stored(loop.target)}
        for name in bound - set(self.source.parameters):
            own = [loop for loop in loops if name in stored(loop.target)]
            inside = {id(part) for loop in own for part in ast.walk(loop)}
            uses = [n for n in nodes if isinstance(n, ast.Name) and n.id == name]
            if self.bindings[name] == len(own) and all(id(use) in inside for use in uses):
                kept.add(name)
        return kept

    def _block(self, body: list[ast.stmt], indent: str, outermost: bool = False) -> str:
        lines = [self._statement(each, indent, outermost) for each in body]
        return "".join(f"{indent}{line}\n" for line in lines if line)

    def _statement(self, node: ast.stmt, indent: str, outermost: bool) -> str:
        match node:
            case ast.Return(value=value):
                return f"return {self.expressions.text(value)};" if value else "return;"
            case ast.Assign(targets=[target], value=value):
                return self._assignment(target, value, outermost)
            case ast.AnnAssign(target=target, value=value) if value:
                return self._assignment(target, value, outermost)
            case ast.AugAssign():
                return self._step(node)
            case ast.If() | ast.While() | ast.For():
                return self._branch(node, indent)
        return self._small(node)

    def _branch(self, node: ast.If | ast.While | ast.For, indent: str) -> str:
        match node:
            case ast.If():
                return self._choice(node, indent)
            case ast.While(test=test, body=body, orelse=[]):
                return f"while ({self.expressions.condition(test)}) {self._inner(body, indent)}"
            case ast.For(target=target, iter=items, body=body, orelse=[]):
                word = "const " if stored(target) <= self._kept_in_loops else ""
                head = f"{word}{self.expressions.target(target)} of {self.expressions.items(items)}"
                return f"for ({head}) {self._inner(body, indent)}"
        raise self.source.refused(node, "a loop without else")

    def _small(self, node: ast.stmt) -> str:
        match node:
            case ast.Expr(
                value=ast.Call(func=ast.Attribute(attr="append", value=owner), args=[item])
            ):
                return f"{self.expressions.text(owner, CALL)}.push({self.expressions.text(item)});"
            case ast.Break() | ast.Continue():
                return f"{type(node).__name__.lower()};"
            case ast.Pass():
                return ""
        raise self.source.refused(node, IN_FORMULAS if self.formula else IN_PROCEDURES)

    def _inner(self, body: list[ast.stmt], indent: str) -> str:
        return f"{{\n{self._block(body, indent + '  ')}{indent}}}"

    def _assignment(self, target: ast.expr, value: ast.expr, outermost: bool) -> str:
        names = _direct_target(target)
        word = ""
        if outermost and names and not names & self.declared:
            word = "const " if all(self.bindings[name] == 1 for name in names) else "let "
            self.declared |= names
        return f"{word}{self.expressions.target(target)} = {self.expressions.text(value)};"

    def _step(self, node: ast.AugAssign) -> str:
        if type(node.op) not in OPERATORS or self.kinds.of(node.target) == "list":
            raise self.source.refused(node, "+= -= *= /= **= on numbers, append on lists")
        sign = OPERATORS[type(node.op)][0]
        target = self.expressions.target(node.target)
        return f"{target} {sign}= {self.expressions.text(node.value)};"

    def _choice(self, node: ast.If, indent: str) -> str:
        head = f"if ({self.expressions.condition(node.test)}) {self._inner(node.body, indent)}"
        match node.orelse:
            case []:
                return head
            case [ast.If() as other]:
                return f"{head} else {self._choice(other, indent)}"
        return f"{head} else {self._inner(node.orelse, indent)}"


@functools.cache
def _bindings(tree: ast.AST) -> Counter[str]:
    """Count how often a statement binds each name, those of comprehensions left out."""
    counted: Counter[str] = Counter()
    pending: list[ast.AST] = [tree]
    while pending:
        node = pending.pop()
        if isinstance(node, ast.Name):
            if isinstance(node.ctx, ast.Store):
                counted[node.id] += 1
        elif not isinstance(node, ast.comprehension):
            pending += ast.iter_child_nodes(node)
    return counted


def _first_direct(body: list[ast.stmt]) -> set[str]:
    """Give the names whose first place is a statement of the body itself, not one inside it."""
    direct: set[str] = set()
    known: set[str] = set()
    for each in body:
        names = _direct(each)
        if not names & known:
            direct |= names
        known |= set(_bindings(each))
    return direct


def _direct(node: ast.stmt) -> frozenset[str]:
    match node:
        case ast.Assign(targets=[target]) | ast.AnnAssign(target=target):
            return _direct_target(target)
    return frozenset()


def _direct_target(target: ast.expr) -> frozenset[str]:
    return frozenset() if isinstance(target, ast.Subscript) else stored(target)
