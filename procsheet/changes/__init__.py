"""What changed between two methods, in trade words, and what that does to findings and to what each material lives through."""
