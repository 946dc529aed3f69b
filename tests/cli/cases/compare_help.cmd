insideline compare --help
