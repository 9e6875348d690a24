"""Walls and quilts to test hangings with, made up or drawn at random."""

from hypothesis import strategies as st

from catalogue.exhibits.walls import Obstacle, QuiltToHang, Wall

HALL = (
    Wall(
        "North wall",
        360,
        120,
        (
            Obstacle("door", 150, 0, 36, 82),
            Obstacle("outlet", 15, 14, 3, 5),
            Obstacle("sign", 158, 90, 20, 8, "exit sign"),
        ),
    ),
    Wall(
        "East wall",
        288,
        120,
        (Obstacle("window", 118, 40, 52, 56), Obstacle("radiator", 122, 3, 44, 24)),
    ),
)

QUILTS = (
    QuiltToHang("1995.1", "Ocean Waves", 78, 84),
    QuiltToHang("1995.2", "Baskets", 60, 72),
    QuiltToHang("1996.1", "Nine Patch", 72.5, 90.25),
    QuiltToHang("1998.4", "Crib quilt", 36, 42),
)

KINDS = ("door", "opening", "window", "outlet", "radiator", "case", "sign")


@st.composite
def obstacles(draw, length, height):
    """An obstacle inside a wall of that size."""
    kind = draw(st.sampled_from(KINDS))
    width = draw(st.integers(2, 40))
    high = draw(st.integers(3, 80))
    x = draw(st.integers(0, length - width))
    low = kind in ("door", "opening")
    y = 0 if low else draw(st.integers(0, height - high))
    covered = not low and draw(st.booleans()) and draw(st.booleans())
    return Obstacle(kind, x, y, width, high, may_be_covered=covered)


@st.composite
def walls(draw, name="wall"):
    """A wall of 5 to 40 ft with up to five obstacles."""
    length, height = draw(st.integers(60, 480)), draw(st.integers(84, 140))
    found = draw(st.lists(obstacles(length, height), max_size=5))
    gap = draw(st.none() | st.integers(0, 30))
    return Wall(name, length, height, tuple(found), gap)


@st.composite
def rooms(draw, most_walls=3, most_quilts=7):
    """Walls and quilts, some of which fit."""
    room = [draw(walls(f"wall {n}")) for n in range(draw(st.integers(1, most_walls)))]
    sizes = st.tuples(
        st.integers(8, 110) | st.sampled_from([216.5 / 2.54, 72.25]), st.integers(8, 110)
    )
    quilts = [
        QuiltToHang(f"q{n}", "", *size)
        for n, size in enumerate(draw(st.lists(sizes, min_size=1, max_size=most_quilts)))
    ]
    return tuple(room), tuple(quilts)
