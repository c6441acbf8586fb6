#!/usr/bin/python3
"""The samples of the pages are run, and what they print is what the page shows.

samples.py STAGE LIBRARY WORK PAGE... : a page's blocks run one after the other, in a folder
of the page's own that holds a copy of the source, `libpvsize`:

- a block behind a line that ends in a file's name and a colon, "`job.c`:", is that file;
- ```c is compiled against the staged library, and run; ```python, ```js and ```sh are run;
- a ```text block shows what the sample before it prints. All but ```sh must have one.

SPDX-License-Identifier: MIT
"""
import difflib
import glob
import os
import re
import shutil
import subprocess
import sys

TOP = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
NAMED = re.compile(r"(?:^|\s)`([\w./-]+)`:$")
STRICT = ["-std=c99", "-Wall", "-Wextra", "-Wpedantic", "-Werror"]


class Block:
    """A fenced block: its language, the line it starts in, its text, and the file it is."""

    def __init__(self, language, line, name):
        self.language, self.line, self.name, self.text = language, line, name, ""


def blocks_of(page):
    """The fenced blocks of a page; a fence without a language is no sample."""
    blocks, block, before = [], None, ""
    with open(page, encoding="utf-8") as lines:
        for number, line in enumerate(lines, 1):
            if line.startswith("```"):
                if block:
                    blocks.append(block)
                    block = None
                else:
                    named = NAMED.search(before)
                    block = Block(line[3:].strip(), number, named.group(1) if named else None)
                before = ""
            elif block:
                block.text += line
            elif line.strip():
                before = line.strip()
    if block:
        raise SystemExit(f"{page}:{block.line}: the block has no end")
    return blocks


def environment(stage, library, folder):
    """What the samples see: the staged library, and a home of their own."""
    found = glob.glob(f"{stage}/**/pvsize.pc", recursive=True)[0]
    libraries = os.path.dirname(os.path.dirname(found))
    return libraries, dict(
        os.environ, HOME=folder, PVSIZE_LIBRARY=library, PYTHONPATH=f"{TOP}/bindings/python",
        PYTHONDONTWRITEBYTECODE="1", PKG_CONFIG_PATH=os.path.dirname(found),
        PKG_CONFIG_SYSROOT_DIR=stage)


def commands_of(block, libraries, settings):
    """The command that runs a sample; C is compiled first."""
    if block.language == "python":
        return ["/usr/bin/python3", "-c", block.text]
    if block.language == "js":
        os.makedirs("node_modules", exist_ok=True)
        if not os.path.exists("node_modules/pvsize"):
            os.symlink(f"{TOP}/bindings/node", "node_modules/pvsize")
        return ["node", "-e", block.text]
    if block.language == "sh":
        return ["sh", "-euc", block.text]
    with open("sample.c", "w", encoding="utf-8") as file:
        file.write(block.text)
    flags = subprocess.run(["pkg-config", "--cflags", "--libs", "pvsize"], env=settings, check=True,
                           capture_output=True, text=True).stdout.split()
    made = subprocess.run(["gcc", *STRICT, "sample.c", "-o", "sample", *flags,
                           f"-Wl,-rpath,{libraries}"])
    return ["./sample"] if made.returncode == 0 else ["false"]


def run(page, block, shown, libraries, settings):
    """Runs a sample; whether it did what the page says."""
    where = f"{os.path.relpath(page, TOP)}:{block.line}"
    if block.language == "sh":
        # a page on installing finds what it installed, and nothing else
        settings = {name: value for name, value in settings.items() if "PKG_CONFIG" not in name}
    done = subprocess.run(commands_of(block, libraries, settings), env=settings, text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    if done.returncode:
        print(f"{where}: status {done.returncode}\n{done.stdout}")
        return False
    if shown is None:
        if block.language != "sh":
            print(f"{where}: nothing is shown of what it prints")
        return block.language == "sh"
    if done.stdout.rstrip() != shown.text.rstrip():
        sys.stdout.writelines(difflib.unified_diff(
            shown.text.splitlines(True), done.stdout.splitlines(True), where, "printed"))
        return False
    return True


def run_page(page, stage, library, work):
    """Runs all samples of a page: how many did well, how many did not."""
    folder = os.path.join(work, "samples", os.path.basename(page).partition(".")[0])
    blocks = blocks_of(page)
    counts = [0, 0]
    shutil.rmtree(folder, ignore_errors=True)
    os.makedirs(folder)
    os.chdir(folder)
    if any(block.language == "sh" for block in blocks):
        left_out = shutil.ignore_patterns("build*", ".git", "node_modules")
        shutil.copytree(TOP, "libpvsize", ignore=left_out)
    libraries, settings = environment(stage, library, folder)
    for block, after in zip(blocks, [*blocks[1:], None]):
        if block.name:
            os.makedirs(os.path.dirname(block.name) or ".", exist_ok=True)
            with open(block.name, "w", encoding="utf-8") as file:
                file.write(block.text)
        elif block.language in ("c", "python", "js", "sh"):
            shown = after if after and after.language == "text" else None
            counts[not run(page, block, shown, libraries, settings)] += 1
    return counts


def main():
    """Runs the samples of all pages named."""
    stage, library, work, *pages = map(os.path.abspath, sys.argv[1:])
    failed = total = 0
    for page in pages:
        good, bad = run_page(page, stage, library, work)
        total += good + bad
        failed += bad
    print(f"{total - failed} samples do what the pages say, {failed} do not")
    sys.exit(1 if failed or not total else 0)


main()
