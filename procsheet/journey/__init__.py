"""What each kettle and each material lives through, told step by step: as a table, a picture, and data."""
