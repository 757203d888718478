"""The comments of a profile that the program writes."""

HEAD_LENGTHS = 'A length is in quotes with its unit ("158.75 mm", "6 1/4 in") or a bare number of millimetres;'
"""First line of the two at the head of a profile."""

HEAD_COMMENTS = "an angle is a bare number of degrees. A line that starts with # is not read: take the # away to use it."
OWN_MINUTES = "Minutes of one's own: however many pieces there are, and for each piece."
NOT_MADE = "Not made: take the # away from the name of the table to have it."
BUILT_IN = "{material} is built in; a table changes what it says."
SHAPE_AND_HELP = "{shape}: {meaning}"
"""A key that only one shape of section has."""

WHEN_ABSENT = "when absent: {value}"
DEFAULT = "default {value}, {status}"
