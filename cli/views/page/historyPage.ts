import { median } from 'simple-statistics';
import { NO_GOAL } from '../../../analysis/report/cautions.js';
import type { TrackedBout } from '../../history/weeks/likeSets.js';
import type { SideGap } from '../../history/weeks/sideGap.js';
import { type FollowedSide, MEASURES, type Measure } from '../../history/weeks/trends.js';
import {
  gapSentence,
  leftOutSentences,
  MEASURE_WORDS,
  measureText,
  sideName,
  sideSentence,
  trendText,
} from '../history/trendWords.js';
import { dayText } from '../words/days.js';
import { capitalized, counted } from '../words/grammar.js';
import { plusMinus } from '../words/numbers.js';
import { controlOf, loadWords, marks } from '../words/setWords.js';
import { type DatedValue, valuesOverTimeChart } from './charts/valuesOverTime.js';
import { pageDocument } from './layout/document.js';
import { html, type Markup } from './layout/markup.js';
import { numbersTable, picture } from './layout/picture.js';
import { plainHeader, plainMethod } from './layout/plainSections.js';

/** The history as one self-contained page: the sentences, then for every side its plots and its sets. */
export function historyPage(sides: readonly FollowedSide[], gaps: readonly SideGap[]): string {
  const sentences = [...sides.map(sideSentence), ...gaps.flatMap((gap) => gapSentence(gap) ?? [])];
  const sets = sides.flatMap(({ bouts }) => bouts.map(({ set }) => set));
  const instants = sets.map((set) => set.recordedAt.instant).sort();
  const facts =
    instants.length === 0
      ? []
      : [
          { name: 'Sets', value: String(new Set(sets.map((set) => set.id)).size) },
          { name: 'From', value: dayText(instants[0]!) },
          { name: 'To', value: dayText(instants.at(-1)!) },
        ];
  const body = html`${plainHeader(
    'What changed over the weeks',
    sentences.length === 0 ? ['No such sets are saved yet.'] : sentences,
    facts,
  )}
<main>
${inventedNotice(sets)}
${sides.map(sideSection)}
${plainMethod([
  'Dots are the median of the complete reps of a set; bars through them are 95 % intervals of the measurement. Plots and trends are over sets like the latest: about the same view and load, the same planned tempo.',
  'A trend (Theil and Sen’s line, Mann and Kendall’s test at 95 %) is named and drawn, dashed, only over five sets on three days or more, and only where the change is more than the measurement’s own uncertainty. ' +
    NO_GOAL,
])}
</main>
<footer><p>Made by tempofilm from the history on this machine.</p></footer>`;
  return pageDocument({ title: 'What changed over the weeks', body, script: null });
}

function inventedNotice(sets: readonly TrackedBout['set'][]): Markup | null {
  if (!sets.some((set) => set.invented)) return null;
  const which = sets.every((set) => set.invented) ? 'These sets' : 'Sets marked “invented”';
  return html`<ul class="findings"><li class="warning"><strong>Invented</strong>${which} are made up for demonstration; nobody lifted them.</li></ul>`;
}

function sideSection(side: FollowedSide, index: number): Markup {
  const id = `side-${index + 1}`;
  return html`<section aria-labelledby="${id}"><h2 id="${id}">${sideName(side)}</h2>
<div class="pictures large thirds">${MEASURES.map((measure) => measurePicture(side, measure))}</div>
${leftOutSentences(side.leftOut).map((sentence) => html`<p class="key">${sentence}</p>`)}
${setTable(side)}
</section>`;
}

/** A measure over the sets that may be compared; null where none of them has it. */
function measurePicture(side: FollowedSide, measure: Measure): Markup | null {
  const { name, scale, unit, decimals } = MEASURE_WORDS[measure];
  const values = side.like.flatMap(({ set, bout }): DatedValue[] =>
    bout[measure] === null
      ? []
      : [
          {
            at: new Date(set.recordedAt.instant),
            value: bout[measure] * scale,
            uncertainty: uncertaintyOf(bout, measure) * scale,
          },
        ],
  );
  if (values.length === 0) return null;
  const title = `${name}, ${sideName(side)}`;
  const said = trendText(measure, side.trends[measure]);
  const ends = `from ${measureText(measure, values[0]!.value / scale)} on ${dayText(values[0]!.at.toISOString())} to ${measureText(measure, values.at(-1)!.value / scale)} on ${dayText(values.at(-1)!.at.toISOString())}`;
  return picture({
    title: name,
    caption: values.length === 1 ? `${capitalized(said)}.` : `${capitalized(ends)}: ${said}.`,
    charts: [
      valuesOverTimeChart({
        title,
        unit: unit.trim(),
        values,
        most: measure === 'deliveredLoweringShare' ? 100 : null,
        trend: trendEnds(side, measure, values),
        ariaDescription: `${counted(values.length, 'set')}, ${ends}: ${said}.`,
      }),
    ],
    numbers: {
      columns: ['Filmed', `${name},${unit}`, '±'],
      rows: values.map(({ at, value, uncertainty }) => [
        dayText(at.toISOString()),
        value.toFixed(decimals),
        plusMinus(uncertainty, decimals),
      ]),
    },
  });
}

function uncertaintyOf(bout: TrackedBout['bout'], measure: Measure): number {
  switch (measure) {
    case 'deliveredLoweringShare':
      return bout.deliveredLoweringUncertainty ?? 0;
    case 'medianEccentricSeconds':
      return bout.medianEccentricUncertaintySeconds ?? 0;
    case 'medianRangeDegrees':
      return bout.medianRangeUncertaintyDegrees ?? 0;
  }
}

const WEEK_MILLISECONDS = 7 * 86_400_000;

/** The trend's line where it is real: through the medians of time and value, as Sen's estimator has it. */
function trendEnds(
  { trends }: FollowedSide,
  measure: Measure,
  values: readonly DatedValue[],
): readonly [number, number] | null {
  const trend = trends[measure];
  if (trend.kind !== 'measured' || (trend.verdict !== 'rising' && trend.verdict !== 'falling')) return null;
  const slope = trend.perWeek * MEASURE_WORDS[measure].scale;
  const weeks = values.map(({ at }) => at.getTime() / WEEK_MILLISECONDS);
  const start = median(values.map(({ value }, index) => value - slope * (weeks[index]! - weeks[0]!)));
  return [start, start + slope * (weeks.at(-1)! - weeks[0]!)];
}

function setTable(side: FollowedSide): Markup {
  const { bouts } = side;
  return numbersTable(`All sets, ${sideName(side)}`, {
    columns: [
      'Set',
      'Filmed',
      'Load',
      'Reps',
      ...MEASURES.map((measure) => MEASURE_WORDS[measure].name),
      'Last controlled rep',
      'Range shorter',
      'Tension',
      '',
    ],
    rows: bouts.map(({ set, bout }) => [
      String(set.id),
      `${dayText(set.recordedAt.instant)}${set.recordedAt.source === 'film' ? '' : ' (date of the file)'}`,
      loadWords(set.details) || '–',
      String(bout.completeReps),
      ...MEASURES.map((measure) => (bout[measure] === null ? '–' : measureText(measure, bout[measure]))),
      controlOf(bout).replace('·', '–'),
      bout.firstShortenedRep === null ? '–' : `from ${bout.firstShortenedRep}`,
      `${Math.round(bout.timeUnderTensionSeconds)} s`,
      marks(set),
    ]),
  });
}
