"""Cutting patterns for the bellows of concertinas and other hand-held free-reed instruments."""

__version__ = "0.2.0"
