/** Shown with every report: what one camera cannot know, and what to do about one's own body. */
export const CAUTIONS: readonly string[] = [
  'Stop if you feel pain, dizziness or chest discomfort.',
  'Before slow lowerings close to failure, set the safeties or have a spotter.',
  'A measurement from one camera with a stated ±; not medical or coaching advice. Ask a qualified coach or clinician before you change load or technique.',
];

/** The same in two lines, for screens. */
export const CAUTION_IN_SHORT =
  'Pain, dizziness or chest discomfort means stop. Safeties or a spotter near failure. One camera, ± as shown; not medical or coaching advice.';

/** Beside whatever shows change: adherence is the lifter's own affair, and more is no goal of this program. */
export const NO_GOAL = 'Longer, deeper or more is not better in itself.';

/** How a moving phase is told from stillness, since the definition matters more than the frame rate. */
export const STILLNESS_IN_WORDS =
  'A move lasts while its speed is above a tenth of its own mean speed; stillness under 0.15 s at an end is a turn, not a hold (up to 0.25 s where its own error leaves that open).';
