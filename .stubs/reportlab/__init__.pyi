Version: str
