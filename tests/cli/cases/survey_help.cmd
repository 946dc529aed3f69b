insideline survey --help
