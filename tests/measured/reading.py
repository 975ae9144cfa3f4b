"""Reading PDFs back with readers that aren't ours."""

import ctypes
from io import BytesIO

import pdfplumber
import pypdfium2
from pypdfium2 import raw

#: Millimetres in a point of 1/72 in.
MM = 25.4 / 72


def strokes_of(pdf, page=0):
    """The straight strokes of a page, each as (x0, y0, x1, y1) in mm from the lower left corner; what closes a shape too, and of
    a curve the straight way to where it ends.
    """
    found: list[tuple[float, ...]] = []
    x, y = ctypes.c_float(), ctypes.c_float()
    document = pypdfium2.PdfDocument(pdf)
    try:
        for path in document[page].get_objects(filter=[raw.FPDF_PAGEOBJ_PATH], max_depth=5):
            as_drawn = path.get_matrix()
            begun = last = (0.0, 0.0)
            for n in range(raw.FPDFPath_CountSegments(path.raw)):
                segment = raw.FPDFPath_GetPathSegment(path.raw, n)
                raw.FPDFPathSegment_GetPoint(segment, x, y)
                at = as_drawn.on_point(x.value, y.value)
                if raw.FPDFPathSegment_GetType(segment) == raw.FPDF_SEGMENT_MOVETO:
                    begun = at
                else:
                    found.append((*last, *at))
                if raw.FPDFPathSegment_GetClose(segment) and at != begun:
                    found.append((*at, *begun))
                last = at
    finally:
        document.close()
    return [tuple(value * MM for value in stroke) for stroke in found]


def said_on(path):
    """All the text of every page of a PDF that is kept at ``path``."""
    document = pypdfium2.PdfDocument(path)
    try:
        return [page.get_textpage().get_text_range() for page in document]
    finally:
        document.close()


def page_sizes(pdf):
    """Width and height of every page in mm."""
    with pdfplumber.open(BytesIO(pdf)) as document:
        return [(float(page.width) * MM, float(page.height) * MM) for page in document.pages]


def words_of(pdf, page=0):
    """All the text of a page in one string."""
    with pdfplumber.open(BytesIO(pdf)) as document:
        return document.pages[page].extract_text() or ""


def pixels_of(pdf, page, dpi):
    """A page as rows of grey pixels, from the top."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        bitmap = document[page].render(scale=dpi / 72, grayscale=True)
        wide, stride, data = bitmap.width, bitmap.stride, bytes(bitmap.buffer)
        return [data[row * stride : row * stride + wide] for row in range(bitmap.height)]
    finally:
        document.close()
