"""Lines and boxes of a PDF page in millimetres, as another program reads them."""

from __future__ import annotations

import ctypes

import pypdfium2 as pdfium
import pypdfium2.raw as raw

POINTS_A_MM = 72 / 25.4


def rectangles(data: bytes, page: int) -> list[tuple[float, float, float, float]]:
    """Give left, top, width and height in mm of each path of a page, as another program sees it."""
    document = pdfium.PdfDocument(data)
    sheet = document[page]
    paths = sheet.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH])
    return [outline(one, sheet.get_height()) for one in paths]


def outline(path, height: float) -> tuple[float, float, float, float]:
    """Give left, top, width and height in mm of the corners of a path, its stroke aside."""
    matrix, x, y = path.get_matrix(), ctypes.c_float(), ctypes.c_float()
    corners = []
    for place in range(raw.FPDFPath_CountSegments(path)):
        raw.FPDFPathSegment_GetPoint(raw.FPDFPath_GetPathSegment(path, place), x, y)
        corners.append(matrix.on_point(x.value, y.value))
    across, up = zip(*corners, strict=True)
    sides = (min(across), height - max(up), max(across) - min(across), max(up) - min(up))
    return tuple(side / POINTS_A_MM for side in sides)
