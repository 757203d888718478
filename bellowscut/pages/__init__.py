"""What stands on the printed pages."""
