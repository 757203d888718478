"""Cutting patterns for the bellows of concertinas and other hand-held free-reed instruments."""

__version__ = "0.1.0"
