"""What is written: one file a format."""
