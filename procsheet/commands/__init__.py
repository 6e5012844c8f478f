"""One file a command: the arguments of the command line in, text or files out, an exit code back."""
