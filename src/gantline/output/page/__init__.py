"""What every page carries: its style, its player, and the setting of the printed solution."""
