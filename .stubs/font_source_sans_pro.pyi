font_directory: str
font_files_ttf: dict[str, str]
