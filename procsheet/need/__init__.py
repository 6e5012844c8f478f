"""What a batch needs, what of it is there, what it costs, and how it is filled."""
