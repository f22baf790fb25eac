import type { Exercise } from '../exercises/exercise.js';

/** Stands in the report in place of an id while nobody has said which exercise it is. */
export const UNCONFIRMED_ID = 'unconfirmed';

/**
 * An exercise as far as it is known before somebody confirms it: the joint that moves, in words that say which way and
 * nothing of which way the muscle works. A curl and a pushdown are the same movement of the elbow with opposite phases.
 *
 * @param likeliest what the movement looks most like.
 */
export function provisional(likeliest: Exercise): Exercise {
  return {
    ...likeliest,
    id: UNCONFIRMED_ID,
    name: `Unconfirmed exercise (most like the ${likeliest.name.toLowerCase()})`,
    secondAngleCountsForRange: false,
    contractedEndLoaded: false,
    stretchedEndLoaded: false,
    words: wordsOfDirection(likeliest),
  };
}

function wordsOfDirection({ drivingAngle, concentric }: Exercise): Exercise['words'] {
  const [grows, shrinks] = drivingAngle.startsWith('shoulder')
    ? (['raising', 'sinking'] as const)
    : (['bending', 'straightening'] as const);
  const [ofGrowing, ofShrunk] = drivingAngle.startsWith('shoulder')
    ? ['pause raised', 'pause down']
    : ['pause bent', 'pause straight'];
  return concentric === 'raises'
    ? { eccentric: shrinks, concentric: grows, stretchedHold: ofShrunk!, contractedHold: ofGrowing! }
    : { eccentric: grows, concentric: shrinks, stretchedHold: ofGrowing!, contractedHold: ofShrunk! };
}
