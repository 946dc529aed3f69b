insideline analyze --help
