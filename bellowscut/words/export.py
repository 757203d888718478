"""What is said when a file cannot be written."""

NOT_PDF_NAME = "{path}: should end in .pdf"
NO_FOLDER = "{path}: there is no folder {folder}"
FILE_EXISTS = "{path}: is there already and is left as it is: give another name, or --force to replace it"
NO_PLAIN_FILE = "{path}: is no plain file and is left as it is: give another name"
NOT_AS_WRITTEN = (
    "{path}: is left as it is, for it is not as bellowscut {command} wrote it (version 0.1 left no mark to know it by): "
    "move it away, or give another name"
)
NOT_WRITTEN = "{path}: cannot be written: {reason}"

FOLDER_NOT_WRITTEN = "{folder}: cannot be written: {reason}"
FOLDER_WRITTEN_WITH_TROUBLE = "{folder}: is written, but the disk gave trouble afterwards: {reason}"
FOLDER_WRITTEN_OLDER_LEFT = "{folder}: is written, but the disk gave trouble afterwards: {reason}; the older set is left in {old}"
NOT_PERMITTED = "permission is denied"
"""This and the five after it stand in the place ``reason``."""

READ_ONLY = "the disk can only be read"
DISK_FULL = "the disk is full"
QUOTA_FULL = "the share of the disk allowed to this user is full"
IN_USE = "it is in use, or a disk is mounted there"
NAME_TOO_LONG = "the name is too long"

NOT_A_SET = "not the files of a set: {files}"
NO_PARENT = "{folder}: cannot be made, because {parent} is not a folder; make that first"
IS_LINK = "{folder}: is a link; name the folder itself, or another one"
IS_FILE = "{folder}: is a file; name a folder that is not there yet"
FOLDER_EXISTS = "{folder}: is there already; add --force to replace the set in it, or name another folder with --out"
FOLDER_IN_USE = "{folder}: is the folder you are in, which cannot be replaced; name one inside it"
HOLDS_A_STRANGER = (
    "{folder}: holds {name}, which is no part of a pattern set, so it is not replaced; move that away, or name another folder with --out"
)
HOLDS_A_SOURCE = (
    "{folder}: holds {name}, which the set is made from, so nothing is replaced; move that away, or name another folder with --out"
)
HOLDS_NO_RECORD = (
    "{folder}: holds {name}, but no {record}, in which a set says how it was written (those of version 0.1 have none): it may have been "
    "changed, so nothing is replaced; move the folder away or delete it, or name another one with --out"
)
HOLDS_ANOTHER = "{folder}: holds {name} of a set that bellowscut {other} has written, and bellowscut {command} does not replace it; name another folder with --out"
HOLDS_CHANGED = (
    "{folder}: holds {name}, which is not as it was written, so nothing is replaced; move that away, or name another folder with --out"
)

SPELT_PLAIN = "Drawings for machines are lettered in single strokes, which know plain letters only: {list}."
SPELT_AS = "{plain} for {word}"
"""One of the above: the name as it is lettered, and as it was given."""
