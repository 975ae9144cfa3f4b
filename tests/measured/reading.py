"""Reading PDFs back with readers that aren't ours."""

from io import BytesIO

import pdfplumber
import pypdfium2

#: Millimetres in a point of 1/72 in.
MM = 25.4 / 72


def strokes_of(pdf, page=0):
    """The straight strokes of a page, each as (x0, y0, x1, y1) in mm from the lower left corner."""
    with pdfplumber.open(BytesIO(pdf)) as document:
        sheet = document.pages[page]
        high = float(sheet.height)
        found = [(*line["pts"][0], *line["pts"][1]) for line in sheet.lines]
        for curve in (*sheet.curves, *sheet.rects):
            found += [(*one, *two) for one, two in zip(curve["pts"], curve["pts"][1:], strict=False)]
        return [(x0 * MM, (high - y0) * MM, x1 * MM, (high - y1) * MM) for x0, y0, x1, y1 in found]


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
