insideline log --help
