printf 'X:1\nM:4/4\nL:1/8\nK:C\n"Dm7" d2 f2 a2 c2 |\n' > typed.abc
insideline analyze typed.abc --json solo.json --annotated typed.musicxml
