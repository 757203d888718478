"""From a profile's materials to pieces of stock with every part on them: skins, shelves, scarf joints, leftovers."""
