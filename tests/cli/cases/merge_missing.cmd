insideline merge nowhere.db -o all.db
