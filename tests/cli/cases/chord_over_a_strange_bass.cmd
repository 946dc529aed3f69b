insideline chord Ab/Bb Fm/G Ab/C
