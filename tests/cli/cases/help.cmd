insideline --help
