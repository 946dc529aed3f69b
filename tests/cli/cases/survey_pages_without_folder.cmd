insideline survey --db solos.db --html all.html --pages pages
