insideline handout --help
