"""What all pictures are drawn with.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import textwrap

try:
    from matplotlib.figure import Figure
    from matplotlib.patches import Rectangle
except ImportError as error:
    raise ImportError("pictures need matplotlib (Debian: python3-matplotlib)") from error

from ._base import caution

INK, GREY, PALE, ALERT = "#1a1a1a", "#6e6e6e", "#e6e6e6", "#b33c00"
WIDTH = 6.3  # inches: the text width of an A4 page


def _figure(height, title, note, left, right, bottom):
    """A figure with one pair of axes, its title, and the caution beneath; `bottom` inches
    are left for what stands under the axes."""
    lines = textwrap.wrap(" ".join([note, caution()]), 138)
    foot = 0.125 * len(lines) + 0.08
    figure = Figure(figsize=(WIDTH, height + foot), dpi=150)
    axes = figure.add_axes([left, (foot + bottom) / (height + foot), right - left,
                            (height - 0.35 - bottom) / (height + foot)])
    axes.set_title(title, fontsize=9, loc="left", color=INK)
    _plain(axes)
    figure.text(0.02, 0.06 / (height + foot), "\n".join(lines), fontsize=6, color=GREY, va="bottom",
                gid="caution")
    return figure, axes


def _plain(axes):
    axes.tick_params(labelsize=8, colors=INK)
    axes.spines[["top", "right"]].set_visible(False)


def _spread(places, step):
    """The same places, moved apart just so far that labels do not overlap."""
    order = sorted(range(len(places)), key=places.__getitem__)
    found = dict(zip(order, (places[i] for i in order)))
    for _ in range(200):
        for low, high in zip(order, order[1:]):
            lack = step - (found[high] - found[low])
            if lack > 0:
                found[low] -= lack / 2
                found[high] += lack / 2
    return [found[i] for i in range(len(places))]


def _margin_labels(axes, labels):
    """Labels to the right of the axes, each at a height: (height, text, colour)."""
    low, high = axes.get_ylim()
    heights = _spread([height for height, _, _ in labels], (high - low) * 0.05)
    for (height, text, colour), place in zip(labels, heights):
        axes.annotate(text, (1, height), (1.03, place), xycoords=("axes fraction", "data"),
                      fontsize=7, color=colour, va="center", annotation_clip=False,
                      arrowprops=dict(arrowstyle="-", color=GREY, lw=0.5, shrinkA=1, shrinkB=1,
                                      relpos=(0, 0.5)))


def _known(part, name):
    """A value that a picture cannot do without."""
    value = getattr(part, name)
    if value is None:
        raise ValueError(f"{part.kind}.{name} has no value")
    return value


def _name(spec, fallback):
    return spec.name or fallback
