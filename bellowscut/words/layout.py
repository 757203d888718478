"""What is said where parts are set side by side."""

LEAST_STRETCH = "least stretch"
SIDE_SHOWN = "{side} side shown"
NOT_CUT_LAY_CUT = "not to be cut: lay the cut board into the outline, holes on holes"
LARGER_THAN_SHEET_AREA = "{id} is larger than the sheet's area of {width} x {height} mm"
