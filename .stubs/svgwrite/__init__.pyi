from svgwrite.drawing import Drawing as Drawing
