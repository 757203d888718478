"""Laws over random instruments, and the second route in space."""
