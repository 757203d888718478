"""Writers: what the other modules worked out, as files in PDF, SVG and DXF, published as one complete set."""
