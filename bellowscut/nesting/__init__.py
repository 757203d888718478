"""Laying pieces out on skins, sheets and rolls: an engine on plain data that knows nothing of bellows."""
