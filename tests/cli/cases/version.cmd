insideline --version
