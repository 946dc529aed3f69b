insideline survey nowhere --db solos.db
