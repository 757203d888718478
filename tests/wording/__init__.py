"""What the tests know of the texts in ``bellowscut/words``, and the template of a translation made from it."""
