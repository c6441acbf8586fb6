# SPDX-License-Identifier: MIT
"""What was measured: as text, as Markdown between the marks of doc/performance.md, as data and as a
plot. One set of data makes all of them."""
import dataclasses
import itertools
import json
import pathlib

TOP = pathlib.Path(__file__).resolve().parents[2]
BEGIN, END = "<!-- measured: begin -->", "<!-- measured: end -->"


def data_of(rows, series, limits, about):
    return rounded({"about": about, "rows": [dataclasses.asdict(row) for row in rows],
                    "growth": series, "limits": limits})


def rounded(value):
    """Four digits of every number that was timed."""
    if isinstance(value, dict):
        return {key: rounded(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [rounded(item) for item in value]
    return float(f"{value:.4g}") if isinstance(value, float) else value


# numbers for people

def digits(value):
    """Three that count."""
    if value >= 100:
        return f"{value:,.0f}"
    return f"{value:.{1 if value >= 10 else 2}f}"


def seconds(value):
    for factor, unit in ((1, "s"), (1e3, "ms"), (1e6, "µs")):
        if value * factor >= 1:
            return f"{digits(value * factor)} {unit}"
    return f"{digits(value * 1e9)} ns"


def spread(quartiles, show):
    low, middle, high = quartiles
    return show(middle) if low == high else f"{show(middle)} ({show(low)} to {show(high)})"


def size(count):
    if count is None:
        return ""
    for factor, unit in ((2 ** 20, "MiB"), (2 ** 10, "KiB")):
        if count >= factor:
            return f"{digits(count / factor)} {unit}"
    return f"{count} B"


def times_faster(value):
    """How often the library fits into the reference: below 1 the reference is faster."""
    return f"{digits(value)} x" if value >= 0.095 else f"{value:.4f} x"


def ratio(row):
    if row["ratio"] is None:
        return ""
    return ("over " if row["at_least"] else "") + spread(row["ratio"], times_faster)


def allocations(memory):
    if not memory or memory["first"] is None:
        return ""
    first, following = (f"{memory[word]:.3g}" for word in ("first", "following"))
    return f"{first}, then {following}; {size(memory['held'])}"


def resident(memory):
    return size(memory["resident"]) if memory else ""


HEADS = ["what", "library", "reference", "its time", "reference / library", "memory", "its memory",
         "allocations; held"]


def cells(row):
    other = row["other"]
    return [f"{row['what']} (each {row['unit']})",
            ("stopped after " if row["stopped"] else "") + spread(row["library"], seconds),
            row["reference"] or "", "" if other is None else
            ("stopped after " if row["at_least"] else "") + spread(other, seconds), ratio(row),
            resident(row["memory"]), resident(row["other_memory"]), allocations(row["memory"])]


def law(series):
    """The law of growth in words, from exponents."""
    exponent, upper, grows = series["exponent"], series["upper_exponent"], series["grows"]
    if max(series["seconds"]) < 1.3 * min(series["seconds"]):
        return f"does not depend on {grows}"
    if series["explained"] < 0.9 or series["seconds"] != sorted(series["seconds"]):
        return f"no power of {grows}"
    if abs(upper - 1) < 0.15:
        return f"{grows}^{upper:.2f}: linear" + (", after a fixed part" if exponent < 0.9 else "")
    return f"{grows}^{upper:.2f}: {'less' if upper < 1 else 'more'} than linear"


def growth_cells(series):
    sizes, times = series["sizes"], series["seconds"]
    unproven = f"; not proven at {', '.join(map(str, series['unproven']))}" if series["unproven"] else ""
    return [series["what"], f"{series['grows']}, {series['others']}".rstrip(", "),
            ", ".join(f"{n:,}: {seconds(t)}" for n, t in zip(sizes, times)),
            f"{series['exponent']:.2f}", f"{series['upper_exponent']:.2f}", law(series) + unproven]


GROWTH_HEADS = ["what", "grows", "sizes and medians", "exponent", "of the upper half", "law"]
LIMIT_HEADS = ["operation", "instructions", "of plain C", "floating point", "of plain C",
               "loads and stores", "lines of data touched"]


def limit_cells(row):
    own, plain, units = row["library"], row.get("plain"), row["units"]
    return [f"`{row['operation']}`" + (f", each of {units:,.0f}" if units > 1 else ""),
            digits(own["instructions"]), digits(plain["instructions"]) if plain else "",
            digits(own["floating"]), digits(plain["floating"]) if plain else "",
            digits(own["loads"] + own["stores"]), digits(own["lines"])]


# pages

def markdown_table(heads, rows):
    lines = ["| " + " | ".join(heads) + " |", "|" + "---|" * len(heads)]
    return lines + ["| " + " | ".join(row) + " |" for row in rows]


def text_table(heads, rows):
    widths = [max(len(cell) for cell in column) for column in zip(heads, *rows)]
    return ["  ".join(cell.ljust(width) for cell, width in zip(row, widths)).rstrip()
            for row in [heads, *rows]]


def sections(data, table, title):
    lines = [data["about"], ""]
    for part, rows in itertools.groupby(data["rows"], key=lambda row: row["part"]):
        lines += [title(part), "", *table(HEADS, [cells(row) for row in rows]), ""]
    if data["growth"]:
        lines += [title("Growth"), "", *table(GROWTH_HEADS, map_list(growth_cells, data["growth"])), ""]
    if data["limits"]:
        lines += [title("Instructions and memory"), "",
                  *table(LIMIT_HEADS, map_list(limit_cells, data["limits"])), ""]
    return "\n".join(lines)


def map_list(call, rows):
    return [call(row) for row in rows]


def as_text(data):
    return sections(data, text_table, lambda part: f"== {part}")


def as_markdown(data):
    return sections(data, markdown_table, lambda part: f"### {part}")


def between_marks(page, text):
    before, rest = page.split(BEGIN)
    return before + BEGIN + "\n" + text.rstrip() + "\n" + END + rest.split(END)[1]


def save(data, folder):
    """The data and the plot."""
    path = pathlib.Path(folder) / "performance.json"
    path.write_text(compact(data) + "\n", encoding="ascii")
    plot(data, pathlib.Path(folder) / "performance.svg")


def compact(data):
    """JSON with a row in each line."""
    parts = [f'"about": {json.dumps(data["about"])}']
    for word in ("rows", "growth", "limits"):
        parts.append(f'"{word}": [\n' + ",\n".join(json.dumps(row) for row in data[word]) + "\n]")
    return "{" + ",\n".join(parts) + "}"


def write_page(data):
    page = TOP / "doc" / "performance.md"
    page.write_text(between_marks(page.read_text(encoding="utf-8"), as_markdown(data)), encoding="utf-8")
    save(data, TOP / "doc")


def plot(data, file):
    import matplotlib
    matplotlib.use("svg")
    matplotlib.rcParams.update({"svg.fonttype": "none", "svg.hashsalt": "pvsize", "font.size": 8})
    from matplotlib import pyplot
    rows = [row for row in data["rows"] if row["ratio"]][::-1]
    figure, (left, right) = pyplot.subplots(1, 2, figsize=(12, max(4, 0.19 * len(rows))),
                                            constrained_layout=True)
    values = [row["ratio"][1] for row in rows]
    left.barh(range(len(rows)), [value - 1 for value in values], left=1,
              color=["#2f6f9f" if value >= 1 else "#b5651d" for value in values])
    left.set_yticks(range(len(rows)), [f"{row['what']} - {row['reference']}{', stopped' * row['at_least']}"
                                        for row in rows], fontsize=6)
    left.set_xscale("log")
    left.axvline(1, color="black", linewidth=0.6)
    left.set_xlabel("time of the reference over that of the library: right of 1 the library is faster")
    for series, marker in zip(data["growth"], itertools.cycle("osv^D<>pPX")):
        right.plot(series["sizes"], series["seconds"], marker=marker, markersize=3, linewidth=0.8,
                   label=f"{series['what']}, {series['grows']}")
    if data["growth"]:
        right.legend(fontsize=6)
    right.set_xscale("log")
    right.set_yscale("log")
    right.set_xlabel("size")
    right.set_ylabel("seconds")
    for axes in (left, right):
        axes.minorticks_off()
    figure.savefig(file, metadata={"Date": None, "Creator": None})
    pyplot.close(figure)
