"""Tests. A package, since a library that we need installs a folder of this name of its own."""
