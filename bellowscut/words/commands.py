"""What the command line says of its commands and options."""

HELP = """\
Draft cutting patterns for the bellows of a concertina or other hand-held free-reed instrument.

Measure the instrument, answer the questions of `new`, look at the figures with `check`, and let
`make` write full-size patterns as PDF, SVG and DXF with counts, leather and cost.

\b
The words:
  section    the outline of the bellows seen along it; its sides are A, B, C ...
  ridge      an outer fold line; valley: an inner one
  fold       one ridge between the frames: a six-fold bellows has six
  card       the stiff plate between a ridge and the next valley
  gusset     the diamond of thin leather that closes a corner
  edge strip leather folded over a ridge; end strip: it joins the bellows to the frame
  stretch    the angle of the cards when the bellows is fully open

PROFILE is a file, or the name of a profile that ships with the program (see `profiles`).
"""
NEW_FROM = "Start from the values of this profile."
NEW_PLAIN = "Write the commented file without asking anything."
JOB = "What is to be renewed."
ALSO = "Make this kind of part as well; may be repeated."
WRITTEN = "Written to {folder}{sep}"
OUTPUT_LOST = "the output could not be written: {reason}"
DISK_REFUSES = "{path}: {reason}"

FOLDER_GONE = "the folder in which this was started is gone: change to one that is there"
MAKE_OUT = "Folder to write; PROFILE-patterns here by default."
JOB_OF_MAKE = "rebellows: everything. regusset: gussets, edge strips and end strips, for sound cards. strips: edge and end strips only. cover: very thin gussets over the old ones. patches: corner patches only."
ALSO_OF_MAKE = "Make this kind of part as well, such as hinge or facing; may be repeated."
FORMATS = "Draw only this; may be repeated. All three by default. Summaries and the work sheet are written all the same."
PAPER = (
    "a5 to a0, letter, legal, tabloid, ansi-c to ansi-e, arch-c to arch-e, or a size such as 300x450 or 12x18in. a4 when nothing is said."
)
PAPER_MARGIN = "Edge of the paper that stays white, from 3 to 30 mm: as much as your printer needs."
SINGLE_SHEET = "Everything on one sheet, strips whole, for a plotter: the smallest of a4 to a0 that holds it, or the one of --paper."
ALL_PIECES = "Draw every piece on the sheets, not one of each marked with its count."
DXF_OF_MAKE = "Which DXF: r2010, or r12 for old machines."
FLATTEN = "Cut arcs into chords this close to them, in SVG and DXF."
MIRROR = "Draw leather from its grain side instead of its flesh side."
FORCE_MAKE = "Replace an older pattern set in the folder, if all its files are as they were written."
LAYOUT_OUT = "Folder to write; PROFILE-layout here by default."
SECONDS = "About how many seconds to look for a better layout."
SETS = "Fill each skin with whole sets of this kind, to see how many it gives."
CUTTER = "laser: each drawing with its kerf, and without. knife: cuts run on past the corners. hand: lines as they are."
LEATHER = "Send leather to the machine as well; read the cautions first."
PAPER_OF_PICTURES = "Paper of the pictures, as for make."
DXF = "Which DXF: r2010, or r12 for old machines."
FORCE_SET = "Replace an older set of this command in the folder, if all its files are as they were written."
QUOTE_OUT = "PDF to write; PROFILE-quote.pdf here by default."
QUOTE_JOB = "What is offered, as for make."
VALUE = "What the instrument is worth in good order; this counts, whatever PROFILE says."
CUSTOMER = "Whom it is for; this counts, whatever PROFILE says."
QUOTE_DATE = "Date to print; a line to write it on by default."
QUOTE_LAYOUT = "Reckon materials by laying them out on the stock of PROFILE; takes a while."
QUOTE_SECONDS = "About how many seconds to look for that layout."
LIKE = "By telephone: the shipped profile that is most like it; nothing is written."
CONDITION = "By telephone: how its bellows is."
PAPER_OF_PAGE = "Paper of the page, as for make."
FORCE_PDF = "Replace an older PDF of that name, if this command wrote it and it is as it was written."
BOOK_JOB = "What was done, as for make."
BOOK_ALSO = "This kind of part was made as well; may be repeated."
BOOK_MINUTES = "What a step took, such as glue-gussets=135; may be repeated."
BOOK_LEATHER = 'What was used up, such as "gusset skin=6.8 dm2"; may be repeated.'
BOOK_DATE = "When it was done; today by default."
WRITTEN_FILE = "Written to {plain}"
NO_TOLERANCE = "{value} is not a useful tolerance: from 0.0001 mm to 1 mm, usually 0.01 mm"
NO_TIME = "{value} is no useful time: from 0.1 to 3600 seconds, usually 10"
NEAREST_KIND = "the nearest is {near}"
KINDS = "one of {kinds}"
NO_KIND_PART = "{value} is no kind of part; {hint}"
BOOK = "Job book (CSV) to learn from, instead of the one that the workshop file names."
WORKSHOP = "Workshop file (TOML) with your prices, minutes, name and job book."
LAYING_OUT = "Laying out"

COMMAND_NEW = """\
Ask for the job and the instrument, in the order in which one measures, and write its profile.

Enter takes the default. A file that exists is never overwritten. When you stop, what you said is kept in
FILE.unfinished, and the same command goes on from there."""

COMMAND_PROFILES = "List the profiles that ship with the program; all of them are invented."

COMMAND_CHECK = "Show every size that follows from PROFILE, with warnings; write nothing."

COMMAND_MAKE = "Write the pattern set of PROFILE: full-size PDF, SVG and DXF, templates, summary and cut list."

COMMAND_LAYOUT = """\
Lay every piece of each PROFILE on its skins, sheets and rolls, and write pictures and machine files.

It says how many skins it takes, how full they are and what is left. Several profiles share their leather."""

COMMAND_QUOTE = """\
Write a one-page estimate for the customer of PROFILE, or say a range on the telephone.

On the telephone nothing is measured yet: --like six-sided-treble --condition leaky is answered at once."""

COMMAND_JOB_BOOK = """\
Note what a job of PROFILE took, in a plain file of yours; the next estimate learns from it.

Without --minutes and --leather it asks step by step. The file is job-book.csv here, or what --book or the
workshop file names; open it with any spreadsheet."""

COMMAND_MEASURING_SHEET = """\
Write a sheet to print and fill in with a pencil at the instrument.

It asks what `new` asks, in the same order and words, and shows where calipers and rule go."""
SHEET_SECTION = "Shape of the ends: all sides alike, an oblong or square, or uneven."
SHEET_SIDES = "Number of sides, from 3 to 64. Six when nothing is said; a rectangle has four."
SHEET_OUT = "PDF to write; measuring-sheet.pdf here by default."

COMMAND_FORM = """\
Write the form that the bellows of PROFILE is built on: pages, and drawings for a saw or a laser.

It is worked out that every piece comes out of the finished bellows; where one cannot, nothing is written."""
FORM_OUT = "Folder to write; PROFILE-form here by default."
FORM_CUTTER = "laser: with its kerf, and without. knife and hand: true size, for a saw; a knife cuts no ply."
