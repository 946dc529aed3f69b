insideline chord --help
