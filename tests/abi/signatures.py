"""The types that cross the interface, one function a line, out of what abidw says of a library
built with -g: read from the machine code's own description, not from the headers. Names of types
are resolved to what they stand for; structs are opaque but for the one that is passed."""
import sys
import xml.etree.ElementTree as ElementTree

SHOWN = {"pvsize_allocator"}


def types_of(root):
    return {node.get("id"): node for node in root.iter() if node.get("id")}


def text_of(types, number, depth=0):
    node = types[number]
    if node.tag == "type-decl":
        return f"{node.get('name')}:{node.get('size-in-bits', 'void')}" if node.get("name") != "void" else "void"
    if node.tag == "typedef-decl":
        return text_of(types, node.get("type-id"), depth)
    if node.tag == "qualified-type-def":
        words = " ".join(w for w in ("const", "volatile", "restrict") if node.get(w) == "yes")
        return f"{text_of(types, node.get('type-id'), depth)} {words}"
    if node.tag == "pointer-type-def":
        return f"{text_of(types, node.get('type-id'), depth)} *"
    if node.tag == "function-type":
        return function_of(types, node)
    if node.tag in ("class-decl", "union-decl", "enum-decl"):
        return f"{node.tag.split('-')[0]} {node.get('name')}"
    return node.tag


def function_of(types, node):
    parameters = [
        "..." if p.get("is-variadic") == "yes" else text_of(types, p.get("type-id"))
        for p in node.findall("parameter")
    ]
    result = text_of(types, node.find("return").get("type-id"))
    return f"({', '.join(parameters) or 'void'}) -> {result}"


def main():
    root = ElementTree.parse(sys.stdin).getroot()
    types = types_of(root)
    lines = set()
    for node in root.iter("function-decl"):
        if node.get("elf-symbol-id", "").startswith("pvsize_"):
            lines.add(f"{node.get('elf-symbol-id')} {function_of(types, node)}")
    for node in root.iter("class-decl"):
        if node.get("name") in SHOWN and node.get("is-declaration-only") != "yes":
            for member in node.findall("data-member"):
                variable = member.find("var-decl")
                lines.add(f"struct {node.get('name')} bit {member.get('layout-offset-in-bits')}: "
                          f"{variable.get('name')}, {text_of(types, variable.get('type-id'))}")
            lines.add(f"struct {node.get('name')} bits {node.get('size-in-bits')}")
    print("\n".join(sorted(lines)))


main()
