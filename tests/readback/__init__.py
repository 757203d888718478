"""Files read back with other programs than those that wrote them."""
