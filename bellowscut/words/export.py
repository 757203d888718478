"""What is said when a file cannot be written."""

NOT_PDF_NAME = "{path}: should end in .pdf"
NO_FOLDER = "{path}: there is no folder {folder}"
FILE_EXISTS = "{path}: is there already and is left as it is: give another name, or --force to replace it"
NO_PLAIN_FILE = "{path}: is no plain file and is left as it is: give another name"
NO_PDF_THERE = "{path}: is no PDF and is left as it is: give another name"
NOT_WRITTEN = "{path}: cannot be written: {reason}"
