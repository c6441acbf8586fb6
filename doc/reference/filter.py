#!/usr/bin/python3
"""Turns the plain comments of a public header into ones that Doxygen reads.

The headers are written for people, by the house's own conventions; this says what they mean:

- a comment right before declarations is about all of them up to the next empty line;
- one that stands alone is about the file;
- a row of a word, two blanks or more and its text is about the argument of that name, or
  has a heading of its own;
- arguments that many calls share are explained once, in base.h;
- any other argument must be named in the comment: the sentence that names it is its text.

What is left without a text is left to Doxygen to complain of.

SPDX-License-Identifier: MIT
"""
import html
import os
import re
import sys

COMMENT = re.compile(r"/\*(.*?)\*/", re.S)
ROW = re.compile(r"^( *)(\S+(?: \S+){0,2})  +(\S.*)$")
FUNCTION = re.compile(r"PVSIZE_API\s+([\w\s*]+?)\b(pvsize_\w+)\((.*?)\);", re.S)
HANDLE = re.compile(r"^(const )?pvsize_(\w+) \*$")


def lines_of(comment):
    """The lines of a comment without its frame."""
    return [re.sub(r"^ \* ?", "", line).rstrip() for line in
            ("   " + comment.strip()).split("\n")]


def rows_of(lines):
    """Prose and rows: pairs of a name, or None, and text. A row goes on in the lines that
    are indented as its text is."""
    found, column = [], None
    for line in lines:
        row = ROW.match(line)
        indent = len(line) - len(line.lstrip())
        if row and len(row.group(1)) <= 4 and row.group(2)[-1] not in ".;":
            found.append([row.group(2), row.group(3)])
            column = row.start(3)
        elif column and re.match(r" *\w+$", line[:column - 1]) and line[column - 1:column] == " ":
            # a name that fills its column
            found.append([line[:column].strip(), line[column:]])
        elif column is not None and line.strip() and indent >= column:
            found[-1][1] += " " + line.strip()
        else:
            column = None
            if found and found[-1][0] is None:
                found[-1][1] += "\n" + line
            else:
                found.append([None, line])
    return [(name, text) for name, text in found if name or text.strip()]


def shared(text):
    """What a header says of the arguments that many of its calls share."""
    found = {}
    for comment in COMMENT.findall(text):
        rows = rows_of(lines_of(comment.partition("Shared arguments")[2].partition("\n")[2]))
        found.update({word: text for name, text in rows if name for word in name.split(", ")})
    return found


def shared_by_all():
    """The same for the conventions of base.h."""
    folder = os.path.dirname(os.path.abspath(sys.argv[1]))
    with open(os.path.join(folder, "base.h"), encoding="utf-8") as file:
        return shared(file.read())


def plain(text):
    """Text that Doxygen takes as it stands: its signs escaped, code marked."""
    text = re.sub(r"([@\\%#])", r"\\\1", html.escape(text, quote=False))
    text = re.sub(r"`([^`]+)`", r"<code>\1</code>", text)
    return re.sub(r"\n[ \t]*\n", "\n<p>", text)


def sentence_with(pattern, text):
    """The first sentence of a text in which a pattern is found."""
    for sentence in re.split(r"(?<=[.;:])\s+", " ".join(text.split())):
        if re.search(pattern, sentence, re.I):
            return sentence
    return None


def arguments_of(text):
    """Types and names of a function's arguments."""
    pairs = []
    for argument in " ".join(text.split()).split(", "):
        match = re.match(r"(.*?[\s*])(\w+)$", argument)
        if match and match.group(2) != "void":
            pairs.append((match.group(1).strip(), match.group(2)))
    return pairs


def text_of(kind, name, rows, prose, common):
    """What there is to say of one argument; None where that is nothing."""
    for words, text in rows:
        if name in words.split(", "):
            return text
    handle = HANDLE.match(kind)
    said = sentence_with(f"`{name}`", prose)
    if said or name in common:
        return said or common[name]
    if handle:
        return f"the {handle.group(2)}" + (", which is only read" if handle.group(1) else "")
    return sentence_with(rf"\b{name}s?\b", prose)


def document(comment, function, common):
    """The comment on one function, as Doxygen wants it."""
    result, _, arguments = function
    rows = rows_of(lines_of(comment))
    named = [(name, text) for name, text in rows if name]
    prose = "\n".join(text for name, text in rows if not name)
    pairs = arguments_of(arguments)
    names = {name for _, name in pairs}
    out = [plain(prose)]
    for name, text in named:
        if not names & set(name.split(", ")):
            out.append(f"<p><b>{plain(name)}</b> {plain(text)}")
    for kind, name in pairs:
        text = text_of(kind, name, named, comment.replace("\n *", "\n"), common)
        if text:
            out.append(f"@param {name} {plain(text)}")
    if "pvsize_status" in result and "*" not in result:
        out.append("@return PVSIZE_OK, or what went wrong: a PVSIZE_E_ number.")
    elif result.strip() != "void":
        first = " ".join((prose or comment).split()).partition(". ")[0]
        out.append(f"@return {plain(first)}")
    return "\n".join(out)


def convert(text):
    """The whole header."""
    common = {**shared_by_all(), **shared(text)}
    out, at = [], 0
    text = re.sub(r"^/\* pvsize/(\w+\.h) - ", r"/* \1: ", text)
    while True:
        match = COMMENT.search(text, at)
        if not match:
            break
        line = text.rfind("\n", 0, match.start()) + 1
        before = text[line:match.start()]
        out.append(text[at:match.start()])
        comment, after = match.group(1), text[match.end():]
        at = match.end()
        if before.strip():  # behind a value
            out.append(f"/**< {plain(comment.strip())} */")
        elif re.match(r"\n(enum|typedef)\b", after):
            out.append(f"/** {blocks(comment)} */")
        elif re.match(r"\nPVSIZE_API\b", after):
            end = re.search(r"\n\s*\n|/\*", after)
            functions = after[:end.start()] if end else after
            out.append(FUNCTION.sub(
                lambda function: "\n/** " + document(comment, function.groups(), common) +
                " */\n" + function.group(0), functions))
            at += len(functions)
        elif "never reused" not in comment:
            out.append(f"/** @file\n{blocks(comment)} */")
    out.append(text[at:])
    return "".join(out)


def blocks(comment):
    """A comment that belongs to no function."""
    parts = []
    for name, text in rows_of(lines_of(comment)):
        parts.append(f"<p><b>{plain(name)}</b> {plain(text)}" if name else plain(text))
    return "\n".join(parts)


with open(sys.argv[1], encoding="utf-8") as header:
    print(convert(header.read()), end="")
