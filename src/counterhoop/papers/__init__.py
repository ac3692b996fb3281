"""Draw once in millimetres, play it to SVG and DXF, set documents with Typst."""
