printf "| C7 | F7 |\n" > plain.changes && insideline changes plain.changes --up 1 -o plain.changes
