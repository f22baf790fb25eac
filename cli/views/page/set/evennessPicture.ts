import type { BoutReport } from '../../../../analysis/report/setReport.js';
import { decimal, percentText } from '../../words/numbers.js';
import { type LoweringHalves, loweringEvennessChart } from '../charts/loweringEvenness.js';
import type { Markup } from '../layout/markup.js';
import { picture } from '../layout/picture.js';
import { type PhaseNames, phaseOfRep } from './wordsOfSet.js';

function halvesOf(bout: BoutReport): readonly LoweringHalves[] {
  return bout.reps.flatMap((rep) => {
    const phase = phaseOfRep(rep, 'eccentric');
    const first = phase?.firstHalfSeconds ?? null;
    const second = phase?.secondHalfSeconds ?? null;
    if (first === null || second === null || first + second <= 0) return [];
    return [{ rep: rep.number, firstSeconds: first, secondSeconds: second }];
  });
}

/** How evenly each rep was lowered; null where no rep says. */
export function evennessPicture(bout: BoutReport, name: string, words: PhaseNames): Markup | null {
  const halves = halvesOf(bout);
  if (halves.length === 0) return null;
  const share = (half: LoweringHalves) => half.firstSeconds / (half.firstSeconds + half.secondSeconds);
  const mean = halves.reduce((sum, half) => sum + share(half), 0) / halves.length;
  const title = `${name}: evenness of the ${words.eccentric}`;
  return picture({
    title,
    caption: `On average ${percentText(mean)} of the ${words.eccentric} was spent in the first half of the way. The patterned part of each bar is the first half, the plain part the second; a bar split at the dashed line is even.`,
    charts: [
      loweringEvennessChart(
        title,
        halves,
        halves.map((half) => `rep ${half.rep}: ${percentText(share(half))} in the first half`).join('; '),
      ),
    ],
    numbers: {
      columns: ['Rep', 'first half, s', 'second half, s', 'first half'],
      rows: halves.map((half) => [
        String(half.rep),
        decimal(half.firstSeconds, 2),
        decimal(half.secondSeconds, 2),
        percentText(share(half)),
      ]),
    },
  });
}
