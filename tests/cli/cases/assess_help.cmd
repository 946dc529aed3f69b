insideline assess --help
