insideline chord
