insideline chord "C7(b9)" Ebmaj7/G F#m7b5 C7alt G:min7/b3 N.C.
