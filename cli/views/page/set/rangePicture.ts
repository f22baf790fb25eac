import type { BoutReport, SetReport } from '../../../../analysis/report/setReport.js';
import { repsInWords } from '../../../../analysis/scoring/firstOfTwoInARow.js';
import { loneShortenedReps, SHORTENED_BELOW } from '../../../../analysis/scoring/range.js';
import { decimal, degreesText, plusMinus } from '../../words/numbers.js';
import { shareUnderLimitText } from '../../words/shareUnderLimit.js';
import { VERDICTS } from '../../words/verdicts.js';
import { type Level, type RepValue, valuesPerRepChart } from '../charts/valuesPerRep.js';
import type { Markup } from '../layout/markup.js';
import { picture } from '../layout/picture.js';
import { angleName } from './wordsOfSet.js';

/** The bout's baseline: stated in the summary, or worked out from a rep's share of it. */
function baselineOf(bout: BoutReport): number | null {
  const stated = bout.summary.baselineRangeDegrees;
  if (stated !== undefined) return stated;
  const rep = bout.reps.find((candidate) => (candidate.range?.ofBaseline ?? 0) > 0);
  return rep?.range ? rep.range.degrees / rep.range.ofBaseline! : null;
}

function baselineInWords(bout: BoutReport): string {
  const earlier = bout.summary.baselineEarlierSets;
  return typeof earlier === 'number'
    ? `range of your earlier like sets (${earlier})`
    : 'median of the first three complete reps';
}

function captionOf(bout: BoutReport, baseline: number | null): string {
  if (baseline === null)
    return 'There is no baseline to hold the range against: fewer than three complete reps.';
  return `${foundInWords(bout)} The line is the ${baselineInWords(bout)} (${degreesText(baseline)}); ${VERDICTS.short.sign} marks a rep under 90 % of it (dashed line) by more than its uncertainty.`;
}

function foundInWords(bout: BoutReport): string {
  const first = bout.summary.firstShortenedRep;
  if (first !== null) return `Range was shortened from rep ${first}.`;
  const lone = loneShortenedReps(bout.reps);
  if (lone.length === 0) return 'Range was not shortened beyond what the camera can tell.';
  return `Range held but for ${repsInWords(lone)}: it counts as shortened from where two reps in a row, or the last one, are shorter.`;
}

/** Range of each rep with its uncertainty against the baseline; null where the view gives no degrees. */
export function rangePicture(report: SetReport, bout: BoutReport, name: string): Markup | null {
  const reps = bout.reps.flatMap((rep) => (rep.range === null ? [] : [{ ...rep, range: rep.range }]));
  if (reps.length === 0) return null;
  const baseline = baselineOf(bout);
  const levels: Level[] =
    baseline === null
      ? []
      : [
          {
            value: baseline,
            name: degreesText(baseline),
            band: null,
            dashed: false,
            place: 'above',
          },
          { value: baseline * SHORTENED_BELOW, name: '90 %', band: null, dashed: true, place: 'below' },
        ];
  const values = reps.map(
    (rep): RepValue => ({
      rep: rep.number,
      value: rep.range.degrees,
      uncertainty: rep.range.uncertaintyDegrees,
      verdict: rep.range.shortened ? 'short' : null,
    }),
  );
  return picture({
    title: `${name}: range of each rep`,
    caption: captionOf(bout, baseline),
    charts: [
      valuesPerRepChart({
        title: `Range of ${angleName(report)}`,
        unit: `${angleName(report)}, degrees`,
        values,
        levels,
        colour: 'var(--accent)',
        ariaDescription: values.map((value) => `rep ${value.rep}: ${degreesText(value.value)}`).join('; '),
        leastTop: 30,
      }),
    ],
    numbers: {
      columns: ['Rep', 'range', 'stretched end', 'contracted end', 'of the first reps', 'shortened at'],
      rows: reps.map(({ number, range }) => [
        String(number),
        `${decimal(range.degrees, 1)}° ${plusMinus(range.uncertaintyDegrees, 1)}`,
        degreesText(range.stretchedDegrees),
        degreesText(range.contractedDegrees),
        range.ofBaseline === null ? '–' : shareUnderLimitText(range.ofBaseline),
        range.shortened ? (range.shortenedAt ?? 'cannot tell') : '–',
      ]),
    },
  });
}
