/**
 * Texts that must not give a number on any object. Common practice, no source: each is a way to be wrong that free
 * text makes easy, such as doubt, ranges, two answers, missing units, dates, unknown classes, misspellings.
 */
const PLAIN = `
  60 min or 90 min   EI 60 TBC   EI 60 (TBC)   FR 1hr (TBC)   tbd   60 min tbd   1 HR?   ? EI 60   60 min (?)
  approx. 60 min   approx 1 hr   ca. 60 min   ~60 min   > 60 min   >= 60 min   ≥60 min   <60 min   +60 min
  assumed 60 min   EI 60 (assumed)   EI 60 assumed   60 min to be confirmed   60 min (see drawing)   2 hr*
  60 min!   min. 60 min   min 60   min. 60   max 60 min   60 min minimum   at least 60 min   up to 60 min   min
  hr   MIN MIN   120/120   60/60/60/60   /60/60   60/60/   //   -/-   --/60/60   -60/60/60   60//60   60-60-60
  60 60 60   2/2/2   1/2/3   12/10/23   24/12/2024   1/2   -/61/61   -/060/060   -/6o/60   60/60/x
  -/60/60 or -/90/90   999/999/999   -/600/600   700 min   601 min   3600 s   61 hours   24 hr   1e2 min
  -60 min   060 min   6 min   60-90 min   60 – 90 min   1-2 hr   1 - 1/2 hr   1 to 2 hr   60 bis 90 min
  2 HR / 1 HR   2 HR, 1 HR   2 HR 1 HR   60 min 90   60 min 90 min   2 HR (60 min)   1 hr 75 min   1 hr 5 min
  1.5 h 30 min   1:30 h   1.2.3 h   11/2 hr   3/2 hr   1/2/3 hr   60/60 min   1/2 min   1.005 hr   1,500 min
  1 h 30 s   one hour   1 HR wall   60 m   60"   60'   60 °C   REI   EI   R   REI -   REI x   REI60/   REI 60 /
  / REI 60   REI 60 60   REI 60 REI 90   EI 60 EI 90   EI 60 / EI 90   EI 60 / EI 60   REI 60 / EI 30
  EI 60 or E 120   EI 60 | E 120   EI 60 & E 120   EI 60 (ve) / E 120 (ho)   EI 60-C / E 90   REI 0   EI 0
  REI 6   REI 61   REI 600   REI 1200   EI130   REI-60   EI 60-   EI 60-90   EI 1 30   EI3 30   IE 60   RI 60
  EIR 60   EEI 60   EI I 60   XEI 60   EIX 60   EI 60 X   EI 60-ef   EI 60 (   EI 60 ()   EI 60)   EI 60 (ve
  (EI 60)   EI 60 (ve ve)   EI 60 (ve i o)   EI 60 (ve TBC)   EI 60 S S   EI 60 S 60   EI 60 S 15   EI 60 C9
  EI 60 C 5   E600   E 600   E 600 120   E500 120   EI600 120   F400 120   F 400   F300 60   F200 120
  F400 90 min   RISF 60   F 2   F-2HR   F 2 / F 1   F 2 / T   F / T 1   F 1 / T 2   F 2 / T 1 / L 5
  F 90 / T 30   F 60 / T 60   F rating   T 1   W 90   F 45   F 90-C   F 90-   F 90 / EI 90   F 90 TBC   R-30
  K 90 U   FD   FD30X   FD 31   CF 60   CF   CF 2   CF 2h CF 1h   FR   FRL   FRL 60   FRR: 60   FR 60
  Fire rating   Fire rating 2   Rating: TBC   FRL -60/60/60   FR EI   FRL FRL   rated   60   120   1   1.5
  30 / 30   A1   A2-s1,d0   B-s1,d0   EI 60 A2   class 1   Type X   BS 476   EN 13501-2   AS1530.4   yes   true
  .T.   FALSE   null   undefined   NaN   Infinity   none   N/A   NR   -   –   --   ?   ???   .   $   *   0   00
  60¹ min   __proto__ 60   constructor 60   toString 90   EI²60   EI 60; DROP   60 min, EI 30   -/60/60 EI 60
  60 min EI
`;

/** Signs that look like others: zero-width space, dotless i, Cyrillic and Greek letters, foreign digits. */
const ODD_SIGNS = [
  'EI 60 (i\u2192i)',
  '6\u200b0 min',
  'E\u0131 60',
  '\u0415I 60',
  '\u0395I 60',
  '\u0666\u0660 min',
  '\u516d\u5341 min',
  'EI 60 🔥',
  '\ud800',
  'EI\u030a 60',
  '\u2160 90',
  '60 min\n90 min',
];

/** Texts in the list stand three spaces apart. */
export const HOSTILE: readonly string[] = [...PLAIN.trim().split(/ {3}|\n */), ...ODD_SIGNS];
