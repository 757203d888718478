"""One file a published source; its printed digits are kept, and met to half a unit of the last."""
