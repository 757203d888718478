"""What is said of a workshop file that does not read."""

FILE_FORMAT = "format of the file"
NAME = "printed at the head of an estimate"
NAME_EXAMPLE = '"The Bench (invented)"'
"""Examples are written as in the file: their quotes and brackets stay."""

ADDRESS = "printed under it"
ADDRESS_EXAMPLE = '["1 Any Street", "Anytown"]'
JOB_BOOK = "the job book, a CSV file, from the folder of this file"
PRICE = "for one skin or sheet, or a metre"
PRICE_PER = "what the price is for"
NOT_HERE = "belongs in a profile: a workshop file has [costs], [minutes], [materials] and, before them, {keys}"
PRICED_BY = "a {form} is priced by {units}: change it in the workshop file {path}"
PRICE_MISSING = "there is no price beside it: write for example price = 11.50"
MATERIALS_TABLES = 'should be tables, such as [materials."gusset skin"]'
