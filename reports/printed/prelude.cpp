#include "reports/printed/prelude.hpp"

#include <string>

namespace insideline::reports {
namespace {

// A worksheet makes the same calls as its key, so that both fall into the same lines; it draws blanks
// and plain heads, keeps the room of brackets and arrows, and prints nothing of the answers.
constexpr std::string_view signs = R"lily(
#(define is-worksheet (eq? sheet 'worksheet))

% Heads. C chord tone, T tension, N non-chord tone, O outside, X no chord, P plain: the sheet says nothing of it.
#(define role-colour '((C . "#0072B2") (T . "#D55E00") (N . "#CC79A7") (O . "#000000") (X . "#000000") (P . "#000000")))
#(define role-style '((C . default) (T . la) (N . do) (O . harmonic-mixed) (X . default) (P . default)))
#(define role-class '((C . "role-chord") (T . "role-tension") (N . "role-nonchord") (O . "role-outside") (X . "role-none") (P . "role-plain")))
#(define role-size '((C . 0) (T . 0) (N . 1.2) (O . 0.6) (X . 0) (P . 0)))

#(define (tweak-head! music property value)
  (set! (ly:music-property music 'tweaks)
        (acons (cons 'NoteHead property) value (ly:music-property music 'tweaks))))

#(define (paint-head! music role)
  (if (not is-worksheet)
      (begin
        (tweak-head! music 'color (assq-ref role-colour role))
        (tweak-head! music 'style (assq-ref role-style role))
        (tweak-head! music 'font-size (assq-ref role-size role)))))

% A struck note: role, id and degree, which drawings for a screen carry along.
note = #(define-music-function (role id degree music) (symbol? string? string? ly:music?)
  (paint-head! music role)
  (tweak-head! music 'output-attributes
    (if is-worksheet
        `((id . ,id))
        `((id . ,id) (class . ,(assq-ref role-class role)) (data-degree . ,degree))))
  music)

% A circle or a square round the head; it takes no room of its own.
#(define ((ring-round shape) grob)
  (let* ((head (ly:note-head::print grob))
         (ring (if (eq? shape 'circle) (circle-stencil head 0.12 0.35) (box-stencil head 0.12 0.35))))
    (ly:make-stencil (ly:stencil-expr ring) (ly:stencil-extent head X) (ly:stencil-extent head Y))))
ringed = #(define-music-function (shape music) (symbol? ly:music?)
  (if (not is-worksheet) (tweak-head! music 'stencil (ring-round shape)))
  music)

#(define-markup-command (word-over layout props word) (string?)
  (interpret-markup layout props
    (if is-worksheet
        #{ \markup \transparent \sans \fontsize #-3 #word #}
        #{ \markup \sans \bold \fontsize #-3 #word #})))

% A note held from the one before.
held = #(define-music-function (role music) (symbol? ly:music?)
  (paint-head! music role)
  music)

#(define-markup-command (flat-sign layout props) ()
  (interpret-markup layout props
    #{ \markup \concat { \hspace #0.1 \fontsize #-3 \raise #0.4 \flat \hspace #0.12 } #}))
#(define-markup-command (sharp-sign layout props) ()
  (interpret-markup layout props
    #{ \markup \concat { \hspace #0.1 \fontsize #-3 \raise #0.65 \sharp \hspace #0.12 } #}))
#(define-markup-command (accidental-sign layout props signs) (string?)
  (interpret-markup layout props
    (cond
      ((string=? signs "b") #{ \markup \flat-sign #})
      ((string=? signs "bb") #{ \markup \concat { \flat-sign \flat-sign } #})
      ((string=? signs "#") #{ \markup \sharp-sign #})
      ((string=? signs "##") #{ \markup \concat { \sharp-sign \sharp-sign } #})
      (else #{ \markup \null #}))))

#(define-markup-command (plain-degree layout props accidental number) (string? string?)
  (interpret-markup layout props #{ \markup \concat { \accidental-sign #accidental #number } #}))

% The sign under a note: boxed, in parentheses or with "!", as its role is.
#(define-markup-command (degree-sign layout props role accidental number) (symbol? string? string?)
  (interpret-markup layout props
    (let ((core #{ \markup \plain-degree #accidental #number #}))
      (case role
        ((C) #{ \markup \with-color #(assq-ref role-colour 'C) \bold #core #})
        ((T) #{ \markup \with-color #(assq-ref role-colour 'T)
                \override #'(box-padding . 0.25) \override #'(thickness . 0.8) \box \bold #core #})
        ((N) #{ \markup \concat { "(" \italic #core ")" } #})
        ((O) #{ \markup \concat { \bold #core "!" } #})
        (else #{ \markup "–" #})))))

#(define (slotted sign)
  #{ \markup \pad-to-box #'(-1.3 . 1.3) #'(-0.5 . 1.7) \halign #CENTER \pad-x #0.2 #sign #})

#(define-markup-command (blank layout props) ()
  (interpret-markup layout props
    #{ \markup \translate #'(0 . -0.4) \override #'(thickness . 1) \draw-line #'(1.9 . 0) #}))

#(define-markup-command (degree layout props role before accidental number after)
  (symbol? string? string? string? string?)
  (interpret-markup layout props
    (slotted (if is-worksheet
                 #{ \markup \blank #}
                 #{ \markup \concat { #before \degree-sign #role #accidental #number #after } #}))))

% What a note does, in the row below the degrees.
#(define-markup-command (motion layout props word) (string?)
  (interpret-markup layout props #{ \markup \halign #CENTER \sans \italic \fontsize #-3.5 #word #}))

% The degree that an arrow from the line above leads to.
#(define-markup-command (reached layout props thickness sign) (number? markup?)
  (interpret-markup layout props
    (if is-worksheet
        sign
        #{ \markup \overlay { #sign \translate #'(-5.2 . 0) \arrow-of #thickness } #})))

% Root, its accidental, the kind of chord, what is raised behind it, the bass and its accidental.
#(define-markup-command (chord-symbol layout props root accidental quality extension bass bass-accidental)
  (string? string? string? markup-list? string? string?)
  (interpret-markup layout props
    #{ \markup \sans \fontsize #1 \concat {
         \bold #root \accidental-sign #accidental
         \fontsize #-1 #quality
         \hspace #0.1
         \raise #0.7 \fontsize #-2.5 \concat { #extension }
         #(if (string=? bass "") #{ \markup \null #} #{ \markup \concat { "/" \bold #bass \accidental-sign #bass-accidental } #})
         \hspace #0.7 } #}))
#(define-markup-command (no-chord layout props) ()
  (interpret-markup layout props #{ \markup \sans \fontsize #-0.5 "N.C." #}))

#(define-markup-command (cell layout props way degrees) (string? markup-list?)
  (interpret-markup layout props
    (if is-worksheet
        #{ \markup \transparent \fontsize #-1 "1" #}
        #{ \markup \sans \fontsize #-0.5 \concat { \italic #way \hspace #0.5 #degrees } #})))

% A connection with the next chord; `guide` makes it heavy: a seventh to a third, a third to a seventh.
connection = \vowelTransition
guide = {
  \once \override Lyrics.VowelTransition.thickness = #2.6
  \once \override Lyrics.VowelTransition.arrow-length = #1.2
  \once \override Lyrics.VowelTransition.arrow-width = #0.55
}

#(define-markup-command (chorus layout props number) (string?)
  (interpret-markup layout props
    #{ \markup \sans \fontsize #-2 \override #'(box-padding . 0.4) \box \bold \concat { "Chorus " #number } #}))
#(define-markup-command (letter layout props name) (string?)
  (interpret-markup layout props
    #{ \markup \sans \fontsize #-1 \override #'(box-padding . 0.4) \box \bold #name #}))
)lily";

constexpr std::string_view page = R"lily(
#(define-markup-command (head layout props glyph role) (string? symbol?)
  (interpret-markup layout props
    (if (not (eq? sheet 'annotated))
        #{ \markup \null #}
        #{ \markup \concat { \with-color #(assq-ref role-colour role) \fontsize #-1 \raise #0.6 \musicglyph #glyph
                             \hspace #0.7 } #})))

#(define-markup-command (legend-line layout props items) (markup-list?)
  (interpret-markup layout props #{ \markup \fontsize #-2.2 \line { #items } #}))

#(define (explained pairs)
  (map cdr (filter (lambda (pair) (memq (car pair) legend-items)) pairs)))

#(define-markup-command (legend-signs layout props) ()
  (interpret-markup layout props
    #{ \markup \override #'(word-space . 2.6) \legend-line #(append
         (if (and is-worksheet (pair? legend-items)) (list #{ \markup "Write degrees like this:" #}) '())
         (explained (list
           (cons 'C #{ \markup \concat { \head "noteheads.s2" #'C \degree-sign #'C "b" "3" "  chord tone" } #})
           (cons 'T #{ \markup \concat { \head "noteheads.s2la" #'T \degree-sign #'T "" "9" "  tension" } #})
           (cons 'N #{ \markup \concat { \head "noteheads.s2do" #'N \degree-sign #'N "b" "9" "  non-chord tone" } #})
           (cons 'O #{ \markup \concat { \head "noteheads.s2harmonic" #'O \degree-sign #'O "#" "5" "  outside" } #})
           (cons 'early #{ \markup \concat { \bold "3»" "  of the chord to come" } #})
           (cons 'late #{ \markup \concat { \bold "«4" "  of the chord before" } #})))) #}))

#(define-markup-command (legend-lines layout props) ()
  (interpret-markup layout props
    #{ \markup \override #'(word-space . 2.6) \legend-line #(explained (list
         (cons 'arpeggios #{ \markup \concat {
           \override #'(thickness . 1.4) \path #0.14 #'((moveto 0 0.3) (lineto 0 1.3) (lineto 3.4 1.3) (lineto 3.4 0.3))
           "  arpeggio, with its degrees" } #})
         (cons 'down #{ \markup \concat { \italic "down!" "  straight down" } #})
         (cons 'connections #{ \markup \concat { \arrow-of #0.1 "  connection" } #})
         (cons 'guide-tones #{ \markup \concat { \arrow-of #0.3 "  connection of third and seventh" } #}))) #}))

#(define (motion-words)
  (explained (map (lambda (pair) (cons (car pair) #{ \markup \concat { \italic #(symbol->string (car pair)) "  " #(cdr pair) } #}))
    '((pass . "passing tone") (nbr . "neighbour") (dbl . "double neighbour") (appr . "approach") (encl . "enclosure")
      (lean . "appoggiatura") (esc . "escape tone") (ped . "pedal")))))
#(define-markup-command (legend-motions layout props) ()
  (interpret-markup layout props #{ \markup \override #'(word-space . 2.6) \legend-line #(motion-words) #}))

#(define-markup-command (arrow-of layout props thickness) (number?)
  (interpret-markup layout props
    #{ \markup \concat { \raise #0.6 \path #thickness #'((moveto 0 0) (lineto 2.6 0)) \raise #0.6 \arrow-head #X #RIGHT ##t } #}))

#(define-markup-command (legend layout props) ()
  (interpret-markup layout props
    (if is-worksheet
        #{ \markup \fill-line { \legend-signs } #}
        #{ \markup \override #'(baseline-skip . 2.7) \column #(append
             (list #{ \markup \fill-line { \legend-signs } #} #{ \markup \fill-line { \legend-lines } #})
             (if (null? (motion-words)) '() (list #{ \markup \fill-line { \legend-motions } #}))) #})))

#(define-markup-command (paragraph layout props text) (string?)
  (interpret-markup layout props
    #{ \markup \pad-markup #0.5 \override #'(baseline-skip . 2.6) \wordwrap-string #text #}))

#(define-markup-command (section layout props name texts) (string? markup-list?)
  (interpret-markup layout props
    #{ \markup \column { \vspace #0.4 \bold \fontsize #1 #name \vspace #0.2
                      \override #'(baseline-skip . 0) \column { #texts } \vspace #0.4 } #}))

% Where a pupil signs; as much room on the key.
#(define-markup-command (name-line layout props) ()
  (interpret-markup layout props
    (case sheet
      ((annotated) #{ \markup \null #})
      ((worksheet) #{ \markup \column { \vspace #0.5 \concat { "Name " \draw-line #'(38 . 0) \hspace #3 "Date " \draw-line #'(14 . 0) } } #})
      (else #{ \markup \column { \vspace #0.5 \transparent "Name" } #}))))

\paper {
  indent = 0
  top-margin = 11\mm
  bottom-margin = 9\mm
  left-margin = 14\mm
  right-margin = 14\mm
  #(define fonts (set-global-fonts #:music "emmentaler" #:roman "C059" #:sans "Nimbus Sans"
     #:factor (/ staff-height pt 20)))
  system-system-spacing = #`((basic-distance . ,(if roomy 23 18)) (minimum-distance . 12) (padding . 3.2) (stretchability . 30))
  markup-system-spacing = #'((basic-distance . 8) (minimum-distance . 6) (padding . 2) (stretchability . 6))
  score-markup-spacing = #'((basic-distance . 8) (minimum-distance . 6) (padding . 2.5) (stretchability . 10))
  ragged-last-bottom = ##t
  ragged-bottom = #roomy
  min-systems-per-page = #fewest-systems
  page-count = #(if on-one-page 1 #f)
  top-system-spacing = #'((basic-distance . 9) (minimum-distance . 7) (padding . 3) (stretchability . 4))
  last-bottom-spacing = #'((basic-distance . 6) (minimum-distance . 4) (padding . 3) (stretchability . 10))
  bookTitleMarkup = \markup \column {
    \fill-line { \fontsize #title-size \bold \center-column { \wordwrap-field #'header:title } }
    \vspace #0.3
    \fill-line { \fromproperty #'header:sheetname \fromproperty #'header:described }
    \name-line
    \vspace #0.4
  }
  oddHeaderMarkup = \markup \unless \on-first-page \fill-line {
    \fontsize #-2 \fromproperty #'header:running
    \fontsize #-2 \fromproperty #'header:sheetname
  }
  evenHeaderMarkup = \oddHeaderMarkup
  oddFooterMarkup = \markup \column {
    \draw-hline
    \vspace #0.15
    \legend
    \vspace #0.1
    \fill-line { \fontsize #-2 \concat { "page " \fromproperty #'page:page-number-string } }
  }
  evenFooterMarkup = \oddFooterMarkup
}

\layout {
  \context {
    \Score
    barNumberVisibility = #all-bar-numbers-visible
    \override BarNumber.font-size = #-1.5
    \override RehearsalMark.self-alignment-X = #LEFT
    \override RehearsalMark.padding = #1.2
    \override SpacingSpanner.common-shortest-duration = #(ly:make-moment 1/8)
  }
  \context {
    \Staff
    \numericTimeSignature
    \accidentalStyle modern
  }
  \context {
    \Voice
    \consists "Horizontal_bracket_engraver"
    \override HorizontalBracket.direction = #UP
    \override HorizontalBracket.bracket-flare = #'(0 . 0)
    \override HorizontalBracket.thickness = #1.4
    \override HorizontalBracket.transparent = #is-worksheet
    \override HorizontalBracket.padding = #0.9
    \override HorizontalBracketText.font-size = #-2
    \override HorizontalBracketText.padding = #0.3
    \override HorizontalBracketText.outside-staff-priority = #801
    \override TupletBracket.bracket-visibility = #'if-no-beam
    \override MultiMeasureRest.expand-limit = #1
  }
}

chord-row-style = \with {
  \override LyricText.self-alignment-X = #LEFT
  \override VerticalAxisGroup.staff-affinity = #DOWN
  \override VerticalAxisGroup.nonstaff-relatedstaff-spacing.padding = #3.3
}
answer-staff-style = \with {
  \omit Clef
  \omit TimeSignature
  \omit KeySignature
  \override VerticalAxisGroup.staff-staff-spacing.padding = #2
}
empty-staves = \score {
  \new Staff \with { \omit Clef \omit TimeSignature } \repeat unfold 3 { \repeat unfold 4 { s1 | } \break }
  \layout { \context { \Score \omit BarNumber } }
}
motion-row-style = \with {
  \override VerticalAxisGroup.staff-affinity = #UP
  \override VerticalAxisGroup.nonstaff-nonstaff-spacing = #'((basic-distance . 1.8) (minimum-distance . 1.6) (padding . 0.3))
}
degree-row-style = \with {
  \override LyricText.font-size = #-0.5
  \override LyricText.output-attributes = #'((class . "degree"))
  \override VerticalAxisGroup.staff-affinity = #UP
  \override VerticalAxisGroup.nonstaff-relatedstaff-spacing.padding = #1.2
  \override VowelTransition.minimum-length = #1.6
  \override VowelTransition.transparent = #is-worksheet
}
)lily";

}  // namespace

std::string_view printed_prelude() {
  static const std::string whole = std::string(signs) + std::string(page);
  return whole;
}

}  // namespace insideline::reports
