printf 'pickup: 9223372036854775807.5\n| C | F |\n' >tune.changes
insideline changes tune.changes
