"""The demo's photos: invented drawings of what a technician would photograph, made here, the same each time."""

import io
from collections.abc import Callable

from PIL import Image, ImageDraw, ImageFont

SIZE = (1200, 900)
STEEL, DARK, PALE, AMBER, STRAW = "#8b949c", "#23282d", "#e9ecee", "#e0a526", "#d8c27a"
Brush = ImageDraw.ImageDraw


def drawn(name: str, *texts: str) -> bytes:
    """Return a drawing as PNG."""
    image = Image.new("RGB", SIZE, STEEL)
    DRAWINGS[name](ImageDraw.Draw(image), texts)
    made = io.BytesIO()
    image.save(made, "PNG")
    return made.getvalue()


def _text(brush: Brush, at: tuple[int, int], text: str, size: int, fill: str) -> None:
    brush.text(at, text, fill=fill, font=ImageFont.load_default(size))


def _display(brush: Brush, texts: tuple[str, ...]) -> None:
    """A controller's display with its lines."""
    brush.rounded_rectangle((120, 140, 1080, 760), 40, fill=DARK)
    brush.rectangle((190, 210, 1010, 560), fill="#0d2b22")
    for row, text in enumerate(texts):
        _text(brush, (220, 240 + 100 * row), text, 62, "#8ff0c4")
    for place in range(4):
        brush.ellipse((230 + 210 * place, 610, 310 + 210 * place, 690), fill=AMBER if place == 0 else "#3a4249")


def _glass(brush: Brush, texts: tuple[str, ...]) -> None:
    """An oil glass; the first text is how full it is."""
    full = float(texts[0])
    brush.ellipse((300, 150, 900, 750), fill=DARK)
    level = round(690 - 480 * full)
    brush.ellipse((360, 210, 840, 690), fill=STRAW)
    if full < 1:
        brush.rectangle((360, 200, 840, level), fill=PALE)
    brush.arc((330, 180, 870, 720), 0, 360, fill=DARK, width=40)
    for bubble in range(12) if full >= 1 else ():
        brush.ellipse((420 + 31 * bubble, 260 + 97 * bubble % 330, 450 + 31 * bubble, 290 + 97 * bubble % 330), PALE)


def _contacts(brush: Brush, _texts: tuple[str, ...]) -> None:
    """Three pairs of contacts, evenly pitted."""
    for pole in range(3):
        left = 190 + 300 * pole
        for top in (220, 520):
            brush.rounded_rectangle((left, top, left + 210, top + 170), 18, fill="#c9ced2")
            for pit in range(26):
                x, y = left + 20 + 53 * pit % 170, top + 20 + 37 * pit % 130
                brush.ellipse((x, y, x + 12, y + 9), fill="#767e85")


def _strainer(brush: Brush, texts: tuple[str, ...]) -> None:
    """A strainer's basket, clean or full."""
    brush.rounded_rectangle((380, 130, 820, 780), 60, fill="#b9bfc4", outline=DARK, width=12)
    if "clean" not in texts:
        brush.rounded_rectangle((410, 330, 790, 750), 40, fill="#8a5a33")
    for x in range(420, 790, 30):
        brush.line((x, 150, x, 760), fill=DARK, width=3)
    for y in range(160, 770, 30):
        brush.line((400, y, 800, y), fill=DARK, width=3)


def _bulb(brush: Brush, _texts: tuple[str, ...]) -> None:
    """A suction line and a bulb that hangs off it."""
    brush.rectangle((0, 250, 1200, 400), fill="#b87333")
    brush.rounded_rectangle((430, 520, 800, 600), 40, fill="#c98b52")
    brush.arc((560, 380, 700, 620), 20, 330, fill=DARK, width=14)
    brush.line((800, 560, 1150, 700), fill="#c98b52", width=12)


def _terminals(brush: Brush, _texts: tuple[str, ...]) -> None:
    """Three lugs of a dial's relay and the dial."""
    brush.rounded_rectangle((200, 160, 1000, 740), 30, fill=DARK)
    brush.ellipse((450, 300, 750, 600), fill=PALE)
    brush.line((600, 450, 480, 380), fill="#a11", width=18)
    for place, text in enumerate(("24", "30", "38", "44")):
        _text(brush, (400 + 130 * place, 220), text, 54, PALE)


def _signature(brush: Brush, texts: tuple[str, ...]) -> None:
    """A name written with a finger."""
    brush.rectangle((0, 0, *SIZE), fill="white")
    points = [(150 + 34 * step, 450 + (97 * step * step + 41 * len(texts[0]) * step) % 260 - 130) for step in range(26)]
    brush.line(points, fill="#10141a", width=14, joint="curve")


DRAWINGS: dict[str, Callable[[Brush, tuple[str, ...]], None]] = {
    "display": _display,
    "glass": _glass,
    "contacts": _contacts,
    "strainer": _strainer,
    "bulb": _bulb,
    "dial": _terminals,
    "signature": _signature,
}
