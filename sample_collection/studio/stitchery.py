"""Words and fancy stitches: a hand of single strokes for names and labels, embroidery on seams."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, hypot, pi, sin

import numpy as np

from sample_collection.studio.scene import Scene, Thread

Spot = tuple[float, float]

# Each letter is drawn in strokes; a stroke is a run of digit pairs, across 0 to 4 and down 0 to 8:
# 0 is the top of a capital, 2 the top of a small letter, 6 the line it stands on, 8 a foot below.
LETTERS = {
    "A": "062046 1434",
    "B": "060030413303 3344453606",
    "C": "4130100105163645",
    "D": "06003041453606",
    "E": "40000646 0333",
    "F": "400006 0333",
    "G": "41301001051636454323",
    "H": "0006 4046 0343",
    "I": "2026 1030 1636",
    "J": "3035261605",
    "K": "0006 4003 0346",
    "L": "000646",
    "M": "0600234046",
    "N": "06004640",
    "O": "103041453616050110",
    "P": "060030413303",
    "Q": "103041453616050110 2446",
    "R": "060030413303 2346",
    "S": "4130100112334445361605",
    "T": "0040 2026",
    "U": "000516364540",
    "V": "002640",
    "W": "0016233640",
    "X": "0046 4006",
    "Y": "002340 2326",
    "Z": "00400646",
    "a": "4332120305163645 4246",
    "b": "0006 0312324345361605",
    "c": "4332120305163645",
    "d": "4046 4332120305163645",
    "e": "04444332120305163645",
    "f": "40302126 1232",
    "g": "4332120305163645 4247381807",
    "h": "0006 0312324346",
    "i": "2226 2021",
    "j": "32372818 3031",
    "k": "0006 3204 1436",
    "l": "202536",
    "m": "0206 03122326 23324346",
    "n": "0206 0312324346",
    "o": "123243453616050312",
    "p": "0208 0312324345361605",
    "q": "4248 4332120305163645",
    "r": "0206 031232",
    "s": "43321203143445361605",
    "t": "202536 1232",
    "u": "0205163645 4246",
    "v": "022642",
    "w": "0216243642",
    "x": "0246 4206",
    "y": "0205163645 4247381807",
    "z": "02420646",
    "0": "103041453616050110",
    "1": "112026 1636",
    "2": "01103041420646",
    "3": "01103041423313 334445361605",
    "4": "36300444",
    "5": "400003334445361605",
    "6": "413010010516364544331304",
    "7": "004016",
    "8": "13020110304142331304051636454433",
    "9": "423313020110304145361605",
    ".": "2526",
    ",": "2617",
    "-": "1434",
    "'": "2021",
    "&": "4612112031320405162644",
    ":": "2324 2526",
}
NARROW = frozenset("iljt.,':1I")
SLANT = 0.22


def write(
    scene: Scene,
    text: str,
    middle: Spot,
    height: float,
    colour: str,
    turn: float = 0.0,
    width: float = 0.03,
) -> None:
    """Lines of text about a middle, the capital letters `height` inches high, in one hand."""
    lines = text.splitlines()
    unit = height / 6
    for number, line in enumerate(lines):
        left = -_length(line) * unit / 2
        drop = (number - (len(lines) - 1) / 2) * height * 1.75 - height / 2
        for stroke in _strokes(line):
            points = [
                _swung((left + x * unit, drop + y * unit), middle, turn)
                for x, y in _uneven(scene, stroke)
            ]
            scene.threads.append(Thread(tuple(points), colour, width))


def _length(line: str) -> float:
    return sum(_advance(letter) for letter in line)


def _advance(letter: str) -> float:
    return 3.6 if letter in NARROW or letter == " " else 5.6


def _strokes(line: str) -> Iterator[list[Spot]]:
    at = 0.0
    for letter in line:
        for stroke in LETTERS.get(letter, "").split():
            pairs = zip(stroke[::2], stroke[1::2], strict=True)
            inset = 1.0 if letter in NARROW else 0.0
            yield [(at + int(x) - inset + (6 - int(y)) * SLANT, float(y)) for x, y in pairs]
        at += _advance(letter)


def _uneven(scene: Scene, stroke: list[Spot]) -> list[Spot]:
    wander = scene.random.normal(0, 0.09, (len(stroke), 2))
    return [(x + float(a), y + float(b)) for (x, y), (a, b) in zip(stroke, wander, strict=True)]


def _swung(point: Spot, middle: Spot, turn: float) -> Spot:
    c, s = cos(turn), sin(turn)
    return middle[0] + point[0] * c - point[1] * s, middle[1] + point[0] * s + point[1] * c


def embroider_seams(scene: Scene, colours: list[str]) -> None:
    """Fancy stitches along every long seam, each seam once, in a thread of its own."""
    done: set[tuple[int, ...]] = set()
    for piece in [piece for piece in scene.pieces if piece.zone == "block"]:
        corners = [(float(x), float(y)) for x, y in piece.outline]
        for here, there in zip(corners, [*corners[1:], corners[0]], strict=True):
            key = tuple(sorted(round(v * 4) for v in (*here, *there)))
            if key in done or hypot(there[0] - here[0], there[1] - here[1]) < 1.2:
                continue
            done.add(key)
            stitch = STITCHES[int(scene.random.integers(len(STITCHES)))]
            colour = str(scene.random.choice(colours))
            for run in stitch(here, there):
                scene.threads.append(Thread(tuple(run), colour, 0.055))


def _along(here: Spot, there: Spot, step: float) -> Iterator[tuple[Spot, Spot, Spot, int]]:
    """Places at equal steps on a line, with the unit vectors along it and across it."""
    length = hypot(there[0] - here[0], there[1] - here[1])
    u = ((there[0] - here[0]) / length, (there[1] - here[1]) / length)
    for number in range(1, int(length / step)):
        at = number * step
        yield (here[0] + u[0] * at, here[1] + u[1] * at), u, (-u[1], u[0]), number


def _feather(here: Spot, there: Spot) -> Iterator[list[Spot]]:
    for (x, y), u, n, k in _along(here, there, 0.16):
        side = 0.2 if k % 2 else -0.2
        yield [(x, y), (x + n[0] * side - u[0] * 0.14, y + n[1] * side - u[1] * 0.14)]
        yield [(x, y), (x - u[0] * 0.16 - n[0] * side * 0.2, y - u[1] * 0.16 - n[1] * side * 0.2)]


def _herringbone(here: Spot, there: Spot) -> Iterator[list[Spot]]:
    for (x, y), u, n, k in _along(here, there, 0.2):
        s = 0.13 if k % 2 else -0.13
        yield [
            (x - u[0] * 0.15 - n[0] * s, y - u[1] * 0.15 - n[1] * s),
            (x + u[0] * 0.15 + n[0] * s, y + u[1] * 0.15 + n[1] * s),
        ]


def _fly(here: Spot, there: Spot) -> Iterator[list[Spot]]:
    for (x, y), u, n, _ in _along(here, there, 0.34):
        foot = (x + n[0] * 0.26, y + n[1] * 0.26)
        for s in (-0.14, 0.0, 0.14):
            yield [(x + u[0] * s, y + u[1] * s), foot]
        yield [(x - u[0] * 0.17, y - u[1] * 0.17), (x + u[0] * 0.17, y + u[1] * 0.17)]


def _buttonhole(here: Spot, there: Spot) -> Iterator[list[Spot]]:
    yield [here, there]
    for (x, y), _, n, k in _along(here, there, 0.11):
        reach = 0.22 if k % 3 else 0.12
        yield [(x, y), (x + n[0] * reach, y + n[1] * reach)]


STITCHES = (_feather, _herringbone, _fly, _buttonhole)


def embroider_sprays(scene: Scene, colours: list[str], number: int) -> None:
    """Small sprays of flowers, fans and a wheel or two, scattered on larger patches."""
    blocks = [piece for piece in scene.pieces if piece.zone == "block" and _area(piece.outline) > 7]
    for piece in scene.random.permutation(len(blocks))[:number]:
        middle = blocks[int(piece)].outline.mean(axis=0)
        at = (float(middle[0]), float(middle[1]))
        colour, leaf = (str(each) for each in scene.random.choice(colours, 2, replace=False))
        _spray(scene, at, colour, leaf) if piece % 3 else _wheel(scene, at, colour)


def _area(outline: np.ndarray) -> float:
    x, y = outline[:, 0], outline[:, 1]
    return abs(float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))) / 2


def _spray(scene: Scene, at: Spot, colour: str, leaf: str) -> None:
    lean = scene.random.uniform(0, 2 * pi)
    for k in (-0.5, 0.0, 0.5):
        tip = (at[0] + 0.9 * sin(lean + k), at[1] - 0.9 * cos(lean + k))
        scene.threads.append(Thread((at, tip), leaf, 0.05))
        for petal in range(5):
            angle = 2 * pi * petal / 5
            end = (tip[0] + 0.22 * cos(angle), tip[1] + 0.22 * sin(angle))
            scene.threads.append(Thread((tip, end), colour, 0.1))


def _wheel(scene: Scene, at: Spot, colour: str) -> None:
    for k in range(10):
        angle = 2 * pi * k / 10
        end = (at[0] + 0.55 * cos(angle), at[1] + 0.55 * sin(angle))
        scene.threads.append(Thread((at, end), colour, 0.05))
    rim = [(at[0] + 0.4 * cos(t), at[1] + 0.4 * sin(t)) for t in np.linspace(0, 2 * pi, 22)]
    scene.threads.append(Thread(tuple((float(x), float(y)) for x, y in rim), colour, 0.05))


def tie(scene: Scene, every: float, colour: str) -> None:
    """Knots at equal steps over the field, as on tied comforters."""
    x0, y0, x1, y1 = scene.field_box
    for x in np.arange(x0 + every / 2, x1, every):
        for y in np.arange(y0 + every / 2, y1, every):
            for _ in range(3):
                dx, dy = scene.random.uniform(-0.3, 0.3, 2)
                scene.threads.append(
                    Thread(((float(x), float(y)), (float(x + dx), float(y + dy))), colour, 0.06)
                )
