"""Small faults to plant in a module: which there are, and how each is put into its syntax tree.

A fault of kind "limit" moves an end of a range of allowed values: a choice, not a law of nature.
Left alone: docstrings, texts, messages, annotations, decorators and imports, because a fault
there is no wrong number.
"""

import ast

ARITHMETIC = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
              ast.Pow: ast.Mult, ast.FloorDiv: ast.Div, ast.Mod: ast.Mult,
              ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd}
COMPARISONS = {ast.Lt: (ast.LtE, ast.GtE), ast.LtE: (ast.Lt, ast.Gt),
               ast.Gt: (ast.GtE, ast.LtE), ast.GtE: (ast.Gt, ast.Lt),
               ast.Eq: (ast.NotEq,), ast.NotEq: (ast.Eq,), ast.In: (ast.NotIn,),
               ast.NotIn: (ast.In,), ast.Is: (ast.IsNot,), ast.IsNot: (ast.Is,)}
CALLS = {"min": "max", "max": "min", "minimum": "maximum", "maximum": "minimum", "sin": "cos",
         "cos": "sin", "any": "all", "all": "any", "argmin": "argmax", "argmax": "argmin"}
EITHER_WAY_ROUND = {"min", "max", "minimum", "maximum", "hypot", "logical_and", "logical_or",
                    "multiply", "add", "isclose", "broadcast_arrays", "zip"}


class Fault:
    """One fault: its line, its kind, and `plant()`, which alters the tree it was found in.

    `inside` is true where nothing but the inside of a function is altered.
    """

    def __init__(self, statement, line, kind, inside, plant):
        self.statement, self.line, self.kind, self.inside = statement, line, kind, inside
        self._plant = plant

    def plant(self):
        """Put the fault in; return the statement before and after."""
        before = _first_lines(self.statement)
        self._plant()
        return before, _first_lines(self.statement)


def _first_lines(statement):
    return "\n".join(ast.unparse(statement).splitlines()[:4])


def faults_of(tree):
    """Every fault for a module's tree, in the order of the text."""
    found = []
    _Walk(found).block(tree.body)
    return sorted(found, key=lambda fault: fault.line)


def _is_text(node):
    return (isinstance(node, ast.JoinedStr)
            or isinstance(node, ast.Constant) and isinstance(node.value, str)
            or isinstance(node, ast.BinOp) and (_is_text(node.left) or _is_text(node.right)))


def _is_range(parts):
    """Whether a tuple reads (name, low, high, unit, ...), a row of a table of ranges."""
    return (len(parts) >= 4 and _is_text(parts[0]) and _is_text(parts[3])
            and not _is_text(parts[1]) and not _is_text(parts[2]))


def _called(node):
    return getattr(node.func, "id", getattr(node.func, "attr", None))


class _Walk:
    def __init__(self, found):
        self.found = found
        self.statement = None
        self.kind = "value"
        self.inside = False

    def add(self, node, plant, kind=None):
        self.found.append(Fault(self.statement, node.lineno, kind or self.kind,
                                self.inside, plant))

    def block(self, body):
        for place, statement in enumerate(body):
            outer, self.statement = self.statement, statement
            self.statement_faults(body, place, statement)
            self.statement = outer

    def statement_faults(self, body, place, node):
        if isinstance(node, (ast.Import, ast.ImportFrom, ast.Pass)):
            return
        if isinstance(node, ast.Raise) or isinstance(node, ast.Expr) and isinstance(
                node.value, ast.Call):
            nothing = ast.copy_location(ast.Pass(), node)
            self.add(node, lambda: body.__setitem__(place, nothing), "dropped")
        if isinstance(node, ast.Raise):
            return
        if isinstance(node, (ast.Break, ast.Continue)):
            other = ast.Continue if isinstance(node, ast.Break) else ast.Break
            self.add(node, lambda: body.__setitem__(place, ast.copy_location(other(), node)))
        if isinstance(node, ast.Return) and isinstance(node.value, ast.BinOp) and not _is_text(
                node.value):
            self.add(node, lambda: setattr(node, "value", _scaled(node.value)))
        if isinstance(node, ast.AugAssign):
            self.operator(node)
        if isinstance(node, (ast.If, ast.While)):
            self.condition(node)
        self.parts(node)

    def parts(self, node):
        """Look into everything below a node that can hold a value."""
        for name, value in ast.iter_fields(node):
            if name in ("annotation", "returns", "decorator_list", "handlers", "type_params"):
                if name == "handlers":
                    for handler in value:
                        self.block(handler.body)
                continue
            if name in ("body", "orelse", "finalbody") and isinstance(value, list):
                outer, self.inside = self.inside, self.inside or isinstance(node, ast.FunctionDef)
                self.block(value)
                self.inside = outer
            elif isinstance(value, list):
                for index, item in enumerate(value):
                    self.expression(item, lambda new, v=value, i=index: v.__setitem__(i, new))
            else:
                self.expression(value, lambda new, n=name: setattr(node, n, new))

    def expression(self, node, put):
        if not isinstance(node, ast.AST) or _is_text(node):
            return
        if isinstance(node, ast.Constant):
            self.constant(node)
        elif isinstance(node, ast.BinOp):
            self.operator(node)
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, (ast.USub, ast.Not, ast.Invert)):
            self.add(node, lambda: put(node.operand))
        elif isinstance(node, ast.BoolOp):
            other = ast.Or() if isinstance(node.op, ast.And) else ast.And()
            self.add(node, lambda: setattr(node, "op", other))
        elif isinstance(node, ast.Compare):
            for place, old in enumerate(node.ops):
                for new in COMPARISONS[type(old)]:
                    self.add(node, lambda p=place, n=new: node.ops.__setitem__(p, n()))
        elif isinstance(node, ast.Call):
            self.call(node)
            return
        if isinstance(node, (ast.IfExp, ast.comprehension)):
            for place, test in enumerate(getattr(node, "ifs", ())):
                self.add(test, lambda p=place, t=test: node.ifs.__setitem__(p, _negated(t)))
            if isinstance(node, ast.IfExp):
                self.condition(node)
        outer = self.kind
        if isinstance(node, ast.Tuple) and _is_range(node.elts):
            self.kind = "limit"
        self.parts(node)
        self.kind = outer

    def condition(self, node):
        if not isinstance(node.test, (ast.Compare, ast.Constant)):
            self.add(node.test, lambda: setattr(node, "test", _negated(node.test)))

    def constant(self, node):
        value = node.value
        if isinstance(value, bool):
            self.add(node, lambda: setattr(node, "value", not value))
        elif isinstance(value, int):
            self.add(node, lambda: setattr(node, "value", value + 1))
        elif isinstance(value, float):
            self.add(node, lambda: setattr(node, "value", 1.1 * value if value else 1.0))

    def operator(self, node):
        new = ARITHMETIC.get(type(node.op))
        if new:
            self.add(node, lambda: setattr(node, "op", new()))

    def call(self, node):
        name, values = _called(node), node.args
        if name in CALLS:
            field = "id" if isinstance(node.func, ast.Name) else "attr"
            self.add(node, lambda: setattr(node.func, field, CALLS[name]))
        if name not in EITHER_WAY_ROUND and name != "checked":
            for place in range(len(values) - 1):
                pair = values[place:place + 2]
                if not any(_is_text(one) or isinstance(one, ast.Starred) for one in pair) and (
                        ast.dump(pair[0]) != ast.dump(pair[1])):
                    self.add(pair[1], lambda p=place, two=pair: values.__setitem__(
                        slice(p, p + 2), two[::-1]))
        for keyword in node.keywords:
            if not _is_text(keyword.value):
                self.add(keyword.value, lambda k=keyword: node.keywords.remove(k))
        self.expression(node.func, lambda new: setattr(node, "func", new))
        for place, value in enumerate(values):
            outer = self.kind
            if name == "checked" and place in (2, 3):
                self.kind = "limit"
            self.expression(value, lambda new, p=place: values.__setitem__(p, new))
            self.kind = outer
        for keyword in node.keywords:
            self.expression(keyword.value, lambda new, k=keyword: setattr(k, "value", new))


def _negated(test):
    return ast.copy_location(ast.UnaryOp(ast.Not(), test), test)


def _scaled(value):
    return ast.copy_location(ast.BinOp(value, ast.Mult(), ast.Constant(1.01)), value)
