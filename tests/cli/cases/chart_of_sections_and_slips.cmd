printf 'key: C\n[Intro] | C | G7 |\n[A] | Dm7 |\n[Dm7] | F | C |\n  A      B\n| F | C |\n' > tune.changes
insideline changes tune.changes --to D
