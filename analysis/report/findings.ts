import type { Exercise } from '../exercises/exercise.js';
import type { Finding } from './setReport.js';

/** Everything that can be said about a film or a set beside its numbers. */
export type FindingCode =
  | 'no-lifter'
  | 'joint-not-visible'
  | 'no-reps'
  | 'far-arm-hidden'
  | 'far-leg-hidden'
  | 'view-too-oblique'
  | 'view-not-frontal'
  | 'limb-out-of-plane'
  | 'joint-at-edge'
  | 'few-frames'
  | 'low-confidence'
  | 'quick-look'
  | 'lifter-doubtful'
  | 'exercise-partly-visible'
  | 'labels-swapped'
  | 'slow-motion'
  | 'slow-motion-doubtful'
  | 'speed-ramp'
  | 'too-few-reps-for-baseline'
  | 'baseline-from-earlier-sets'
  | 'film-cuts-reps'
  | 'other-side-only'
  | 'several-bouts'
  | 'explosive-lift-slower'
  | 'verdicts-unclear'
  | 'quick-eccentric-not-judged'
  | 'partials-planned'
  | 'lift-not-made';

/** Numbers a message may mention. */
export interface FindingFacts {
  readonly exercise: Exercise;
  readonly framesPerSecond: number;
  readonly degreesOffSide: number;
  readonly slowMotionFactor: number;
}

interface FindingText {
  readonly level: Finding['level'];
  message(facts: FindingFacts): string;
  remedy(facts: FindingFacts): string | null;
}

const FINDINGS: Record<FindingCode, FindingText> = {
  'no-lifter': {
    level: 'problem',
    message: () => 'Cannot tell: no person was found in this film.',
    remedy: () => 'Film the whole body, upright, in good light, three to four steps away.',
  },
  'joint-not-visible': {
    level: 'problem',
    message: ({ exercise }) =>
      `Cannot tell: the joint that times the ${exercise.name.toLowerCase()} was hardly ever visible.`,
    remedy: ({ exercise }) => exercise.filming,
  },
  'no-reps': {
    level: 'problem',
    message: ({ exercise }) => `No reps of the ${exercise.name.toLowerCase()} were found in this film.`,
    remedy: ({ exercise }) => `Check the exercise with: tempofilm exercises. ${exercise.filming}`,
  },
  'far-arm-hidden': {
    level: 'note',
    message: () => 'The far arm is hidden behind the body in this view; nothing is claimed about it.',
    remedy: () => 'Turn round and film again for the other arm.',
  },
  'far-leg-hidden': {
    level: 'note',
    message: () => 'The far leg is hidden in this view; the near leg stands for both.',
    remedy: () => null,
  },
  'view-too-oblique': {
    level: 'warning',
    message: ({ degreesOffSide }) =>
      `The camera stands about ${degreesOffSide.toFixed(0)}° off the side, so range in degrees cannot be told; the times can.`,
    remedy: ({ exercise }) => exercise.filming,
  },
  'view-not-frontal': {
    level: 'warning',
    message: () =>
      'From this side the movement points towards the camera, so range in degrees cannot be told; the times can.',
    remedy: ({ exercise }) => exercise.filming,
  },
  'limb-out-of-plane': {
    level: 'warning',
    message: () =>
      'The working limb points towards or away from the camera for part of the movement, so range in degrees cannot be told; the times can.',
    remedy: ({ exercise }) => exercise.filming,
  },
  'joint-at-edge': {
    level: 'warning',
    message: () =>
      'The working limb reaches the edge of the picture or beyond it, so range in degrees cannot be told; the times can.',
    remedy: () =>
      'Move the phone back until the whole body, hands and feet included, stays inside the picture.',
  },
  'few-frames': {
    level: 'warning',
    message: ({ framesPerSecond }) =>
      `Only ${framesPerSecond.toFixed(0)} frames a second: the ± of every time is wide.`,
    remedy: () => 'Film at 30 frames a second or more, and send the original rather than a messenger copy.',
  },
  'low-confidence': {
    level: 'warning',
    message: () => 'The lifter was hard to see, so the figures are less sure than usual.',
    remedy: () =>
      'More light, clothes that differ from the background, and nothing between phone and lifter.',
  },
  'quick-look': {
    level: 'warning',
    message: () => 'This was a quick look: it can miss a rep, and its ± is wide.',
    remedy: () => 'Leave out --quality quick for an answer to rely on.',
  },
  'lifter-doubtful': {
    level: 'warning',
    message: () => 'Several people move in this film and it is not clear which one is the lifter.',
    remedy: () => 'Point at the lifter: --lifter x,y@seconds (x and y from 0 to 1, from the top left).',
  },
  'exercise-partly-visible': {
    level: 'note',
    message: ({ exercise }) =>
      exercise.caveat ?? `The ${exercise.name.toLowerCase()} is only partly visible to one camera.`,
    remedy: ({ exercise }) => exercise.filming,
  },
  'labels-swapped': {
    level: 'note',
    message: () => 'Left and right were confused for some moments and put right from the frames around them.',
    remedy: () => null,
  },
  'slow-motion': {
    level: 'note',
    message: ({ slowMotionFactor }) =>
      `This film is stored ${slowMotionFactor.toFixed(slowMotionFactor % 1 === 0 ? 0 : 1)} times too slowly; all times are real time.`,
    remedy: () => 'If that is wrong, give the right factor with --speed-factor.',
  },
  'slow-motion-doubtful': {
    level: 'warning',
    message: () =>
      'The film says it was captured at a higher rate than it stores on average, at a varying rate: dim light or slight slow motion. It is taken for real time.',
    remedy: () => 'If it plays more slowly than life, give the factor with --speed-factor.',
  },
  'speed-ramp': {
    level: 'warning',
    message: () =>
      'Some neighbouring reps take several times as long as the others in both directions. If the phone slowed that part of the film down, its times are not those of the lifter.',
    remedy: () => 'Send the original of a slow-motion film rather than a shared or edited copy.',
  },
  'too-few-reps-for-baseline': {
    level: 'note',
    message: () => 'Fewer than three complete reps: there is no baseline to say whether range shortened.',
    remedy: () => null,
  },
  'baseline-from-earlier-sets': {
    level: 'note',
    message: () =>
      'Fewer than three complete reps: range is held against your own earlier sets of this exercise, filmed from about the same view, with the same side and planned tempo.',
    remedy: () => null,
  },
  'film-cuts-reps': {
    level: 'note',
    message: () => 'The film begins or ends in the middle of a rep; that rep is not judged.',
    remedy: () => 'Start filming a second before the first rep and stop a second after the last.',
  },
  'other-side-only': {
    level: 'warning',
    message: () => 'Reps were found, but not for the side that was asked for.',
    remedy: () => 'Leave --side out to see every side that moves, or use --mirrored for a mirror image.',
  },
  'several-bouts': {
    level: 'note',
    message: () =>
      'One side has several bouts here: rests inside a set, or several sets in one film. Each has its own reps.',
    remedy: () => 'To report one of them, cut the film with --from and --to.',
  },
  'explosive-lift-slower': {
    level: 'note',
    message: ({ exercise }) =>
      `Some explosive reps had a slower ${exercise.words.concentric}; effort and fatigue look alike on film.`,
    remedy: () => null,
  },
  'verdicts-unclear': {
    level: 'warning',
    message: () =>
      'Half of the tempo verdicts or more are unclear: the ± of this film is wide beside the tolerance.',
    remedy: ({ exercise }) =>
      `Film as tempofilm exercises ${exercise.id} says and in good light, or allow more with --tolerance.`,
  },
  'quick-eccentric-not-judged': {
    level: 'note',
    message: ({ exercise }) =>
      `The plan asks for a quick ${exercise.words.eccentric}; it is timed, not judged.`,
    remedy: () => null,
  },
  'partials-planned': {
    level: 'note',
    message: () =>
      'The plan asks for part of the range in one stage; partial reps there are counted and are no fault.',
    remedy: () => null,
  },
  'lift-not-made': {
    level: 'note',
    message: ({ exercise }) =>
      `In the last rep the ${exercise.words.concentric} stayed under 60 % of the usual range: the lift was not made.`,
    remedy: () => 'Close to failure, set the safeties or have a spotter.',
  },
};

/** Every code, in the order of the table. */
export const FINDING_CODES = Object.keys(FINDINGS) as readonly FindingCode[];

export function finding(code: FindingCode, facts: FindingFacts): Finding {
  const text = FINDINGS[code];
  return { code, level: text.level, message: text.message(facts), remedy: text.remedy(facts) };
}
