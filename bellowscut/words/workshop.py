"""What is said of a workshop file that does not read."""

NOT_HERE = "belongs in a profile: a workshop file has [costs], [minutes], [materials] and, before them, {keys}"
PRICED_BY = "a {form} is priced by {units}: change it in the workshop file {path}"
PRICE_MISSING = "there is no price beside it: write for example price = 11.50"
MATERIALS_TABLES = 'should be tables, such as [materials."gusset skin"]'
