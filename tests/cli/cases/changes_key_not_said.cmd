printf "| C7 | F7 |\n" > plain.changes && insideline changes plain.changes --to Ab
