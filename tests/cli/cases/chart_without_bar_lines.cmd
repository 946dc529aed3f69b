printf 'title: Quay Blues\nkey C\ntempo 120\nC7 F7 C7 C7\nF7 F7 C7 C7)\n' > tune.changes
insideline changes tune.changes --to D
