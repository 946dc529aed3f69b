cat > crane.abc <<'END'
T:Crane Signal
M:4/4
L:1/8
K:C
c_BGc- c2 z2 | f_ecf- f2 z2 | c_BGc- c2 z2 | c_BGc- c2 z2 |
f_ecf- f2 z2 | f_ecf- f2 z2 | c_BGc- c2 z2 | c_BGc- c2 z2 |
g=fdg- g2 z2 | f_ecf- f2 z2 | c_BGc- c2 z2 | g=fdg- g2 z2 |
z EG_B dcBA | Ac_eg fedc | egfe dcB_B | AGFE G_Bdc |
_BAFA c_edc | fe_ec AcGA | GECE G_BAG | e_edc _BGAE |
FABd fdBG | Acfg af_ec | ecGE GAcd | Bdfe dB c2 |]
END
cat > crane.changes <<'END'
title: Crane Signal
key: C
| C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | G7 | F7 | C7 | G7 |
END
insideline analyze crane.abc --changes crane.changes | sed -n '/^Patterns/,/^$/ p'
insideline compare crane.abc --changes crane.changes --choruses | sed '/^How sure/,/^Every figure/ d'
