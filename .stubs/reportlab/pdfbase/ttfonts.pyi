from typing import Any, BinaryIO

class TTFont:
    fontName: str
    face: Any
    def __init__(self, name: str, filename: str | BinaryIO) -> None: ...
    def stringWidth(self, text: str, size: float, encoding: str = ...) -> float: ...
