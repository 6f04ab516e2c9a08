"""A printed line of working evaluated as a pocket calculator would: a second route."""

import ast
import math
import re

_SUPERSCRIPTS = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")
_FUNCTIONS = {"sqrt": math.sqrt, "tan": math.tan, "cos": math.cos, "sin": math.sin,
              "atan": math.atan, "acos": math.acos, "asin": math.asin, "tanh": math.tanh,
              "exp": math.exp, "ln": math.log, "π": math.pi, "log": math.log10}


def working_value(line):
    """Return the value of a line such as "200 × (897.0 − 4.16) / (962.2 − 4.16)"."""
    text = line.replace("×", "*").replace("−", "-").replace("√", "sqrt").replace("·", "*")
    text = re.sub(r"[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+", lambda m: f"**({m.group().translate(_SUPERSCRIPTS)})", text)
    text = re.sub(r"°", "*π/180", text)
    tree = ast.parse(text.strip(), mode="eval")
    for node in ast.walk(tree):
        if not isinstance(node, (ast.Expression, ast.BinOp, ast.UnaryOp, ast.Constant, ast.Call,
                                 ast.Name, ast.Load, ast.operator, ast.unaryop)):
            raise ValueError(f"{type(node).__name__} in a line of working: {line}")
    return eval(compile(tree, line, "eval"), {"__builtins__": {}}, _FUNCTIONS)
