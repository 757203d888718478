"""What is wrong with one value of a profile, and what would be right."""

SHOULD_BE = "should be {wanted}"
NOT_FINITE = "is no finite number: should be {wanted}"
WRONG_COUNT = "has {count} values: should be {wanted}"

A_LENGTH = 'a length, such as "25 mm", "1 1/4 in" or a bare number of millimetres'
"""This and all that begins with an article stands in the place ``wanted`` of the three above."""

A_THICKNESS = 'a length, such as "25 mm", "1 1/4 in", "1 oz" or a bare number of millimetres'
A_NUMBER = "a number, {range}, without quotes"
AN_ANGLE = "a bare number of degrees, {range}"
A_SHARE = "a share in per cent, {range}"
A_LIST_OF_TEXTS = "a list of texts in quotes, such as {example}"
AN_AMOUNT = "an amount such as 11.50, without quotes or sign"
MINUTES = "minutes however many pieces there are, and for each piece, such as {example}"
A_LIST_OF_LENGTHS = 'a list of lengths, such as ["91.2 mm", 92.5]'
TWO_LENGTHS = "two lengths, such as {example}"
READINGS = "a length, several in a list, or either by the letter of the side, such as {example} or {{ A = {example} }}"
A_POINT = "a point [x, y]"
A_LIST_OF_POINTS = "a list of three points [x, y] at least"
THE_OTHER_END = "a list, the same key's values at the second end"
A_FLAW = "a flaw [x, y, size]"
A_LIST_OF_FLAWS = "a list of flaws [x, y, size]"
A_LIST_OF_TABLES = "a list of tables, such as {example}"

NOT_NOUGHT = "may not be 0: should be {range}"
NOT_NEGATIVE = "may not be negative: should be {range}"
TOO_SMALL = "too small: should be {range}"
TOO_SMALL_MEANT_INCHES = 'too small: should be {range}; a bare number is millimetres, for inches write "{inches} in"'
TOO_LARGE = "too large: should be {range}"
WHOLE_NUMBER = "should be a whole number, {range}, without quotes or decimals"
ONE_OF = "should be one of {choices}"
TRUE_OR_FALSE = "should be true or false, without quotes"
TEXT = "should be text in quotes"
EMPTY_TEXT = "is empty: should be text in quotes"
TOO_LONG = "is {count} characters long: should be {most} at most"
CONTROL_CHARACTERS = "has control characters in it: should be one plain line"
TOO_MANY_DECIMALS = "has too many decimals: should have {most} at most"
CURRENCY = 'should be the three capitals of ISO 4217, such as "GBP", "EUR" or "USD"'
AREA = 'should be an area with its unit in quotes, such as "5 sq ft" or "46.5 dm2"'
COLOUR = 'should be a colour in quotes, as your machine shop tells it: "#ff8000", or red, green and blue from 0 to 255, "255, 128, 0"'
NUMBERED = "value {number} {fault}"
"""One value of a list; ``fault`` is what would be said of a single one."""

NO_SIDE = "names a side {side}: sides have capital letters, A first"
OF_SIDE = "at side {side} {fault}"
"""What was read at one side; ``fault`` is what would be said of a single reading."""

TRACING_OR_POINTS = 'should be the name of a tracing, such as "tracing.svg", or a list of points [x, y]'
BAR_TABLE = "should be a table with kind and outline, such as {example}"
SPARE = 'should be a count from 0 to {most}, or a share in quotes such as "10 %"'
