import type { Exercise } from '../../../analysis/exercises/exercise.js';
import type { Style } from './style.js';
import { wrapped } from './wrapped.js';

const SEEN: Record<Exercise['visibility'], string> = {
  yes: 'The joints that time it are seen well from there.',
  partly: 'It is only partly seen: some reps may come back as "cannot tell".',
  poorly: 'It is seen poorly: expect "cannot tell" more often than an answer.',
};

/** One exercise: what times it, what its phases are called, and where to put the phone. */
export function exerciseScreen(exercise: Exercise, { colors, width }: Style): string {
  const { id, name, filming, caveat, visibility, words } = exercise;
  const lines: readonly (readonly [string, string])[] = [
    ['Timed by', `${anglesInWords(exercise)}.`],
    [
      'Phases',
      `${words.eccentric}, ${words.stretchedHold}, ${words.concentric}, ${words.contractedHold}; in a tempo in this order.`,
    ],
    ['Usual range', `${rangeInWords(exercise)} (common practice, no source).`],
    ['Filming', filming],
    ['Seen', caveat === null ? SEEN[visibility] : `${SEEN[visibility]} ${caveat}`],
    ['Try', `tempofilm analyze set.mp4 --exercise ${id} --tempo 4-0-1-1 --reps 8-10`],
  ];
  const longest = Math.max(...lines.map(([title]) => title.length));
  const body = lines.map(([title, text]) => {
    const lead = `${title.padEnd(longest)}  `;
    const block = wrapped(text, width, lead);
    return `${colors.dim(lead.trimEnd())}${block.slice(lead.trimEnd().length)}`;
  });
  return `${colors.bold(`${name} (${id})`)}\n\n${body.join('\n')}\n`;
}

function anglesInWords({ drivingAngle, secondAngle, concentric, words, defaultStart }: Exercise): string {
  const driving = drivingAngle.replaceAll('-', ' ');
  const grows = concentric === 'raises' ? 'grows' : 'shrinks';
  const second = secondAngle === null ? '' : `, with ${secondAngle.replaceAll('-', ' ')} beside it`;
  return `${driving}, which ${grows} in the ${words.concentric}${second}; usually starts ${defaultStart}`;
}

function rangeInWords({ workingRangeDegrees: { stretched, contracted } }: Exercise): string {
  return `${stretched[0]} to ${stretched[1]}° stretched, ${contracted[0]} to ${contracted[1]}° contracted`;
}
