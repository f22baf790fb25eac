import type { SideGap } from '../../history/sideGap.js';
import { type FollowedSide, MEASURES, type Measure } from '../../history/trends.js';
import { dayText } from './days.js';
import { plotOverTime } from './plotOverTime.js';
import { loadWords, marks } from './setWords.js';
import {
  gapSentence,
  leftOutSentences,
  MEASURE_WORDS,
  measureText,
  sideName,
  sideSentence,
  trendText,
} from './trendWords.js';

/** The history as one self-contained page: the sentences, a plot a measure with the same numbers in a table. */
export function historyPage(sides: readonly FollowedSide[], gaps: readonly SideGap[]): string {
  const sentences = [...sides.map(sideSentence), ...gaps.map(gapSentence).filter((text) => text !== null)];
  const invented = sides.some(({ bouts }) => bouts.some(({ set }) => set.invented));
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>What changed over the weeks</title>
<style>
:root { color-scheme: light dark; }
body { font: 1rem/1.5 system-ui, sans-serif; max-width: 48rem; margin: 2rem auto; padding: 0 1rem; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; padding: 0.2rem 0.6rem 0.2rem 0; border-bottom: 1px solid color-mix(in srgb, currentColor 25%, transparent); }
figure { margin: 1.5rem 0; }
svg { width: 100%; height: auto; }
.scroll { overflow-x: auto; }
</style>
</head>
<body>
<main>
<h1>What changed over the weeks</h1>
${sentences.map((sentence) => `<p><strong>${escaped(sentence)}</strong></p>`).join('\n')}
${invented ? '<p>Sets marked “invented” are made up for demonstration; nobody lifted them.</p>' : ''}
${sides.map(sideSection).join('\n')}
<p>Lines and trends are over sets like the latest: about the same view and load, the same planned tempo. Bars show ± half
the 95 % interval of the measurement. One camera; not medical or coaching advice. Pain, dizziness or chest discomfort
means stop.</p>
</main>
</body>
</html>
`;
}

function sideSection(side: FollowedSide): string {
  return `<section>
<h2>${escaped(sideName(side))}</h2>
${MEASURES.map((measure) => measureFigure(side, measure)).join('\n')}
${leftOutSentences(side.leftOut)
  .map((sentence) => `<p>${escaped(sentence)}</p>`)
  .join('\n')}
${setTable(side)}
</section>`;
}

function measureFigure({ like, trends }: FollowedSide, measure: Measure): string {
  const points = like.flatMap(({ set, bout }) =>
    bout[measure] === null
      ? []
      : [
          {
            instant: set.recordedAt.instant,
            value: bout[measure],
            uncertainty: uncertaintyOf(bout, measure),
          },
        ],
  );
  if (points.length === 0) return '';
  const { name } = MEASURE_WORDS[measure];
  return `<figure>
<figcaption>${name}: ${escaped(trendText(measure, trends[measure]))}</figcaption>
${plotOverTime(points, name, (value) => measureText(measure, value))}
</figure>`;
}

function uncertaintyOf(bout: FollowedSide['bouts'][number]['bout'], measure: Measure): number {
  switch (measure) {
    case 'deliveredLoweringShare':
      return bout.deliveredLoweringUncertainty ?? 0;
    case 'medianEccentricSeconds':
      return bout.medianEccentricUncertaintySeconds ?? 0;
    case 'medianRangeDegrees':
      return bout.medianRangeUncertaintyDegrees ?? 0;
  }
}

function setTable({ bouts }: FollowedSide): string {
  const titles = [
    'Set',
    'Filmed',
    'Load',
    'Reps',
    ...MEASURES.map((measure) => MEASURE_WORDS[measure].name),
    '',
  ];
  const rows = bouts.map(({ set, bout }) => [
    String(set.id),
    dayText(set.recordedAt.instant),
    loadWords(set.details),
    String(bout.completeReps),
    ...MEASURES.map((measure) => (bout[measure] === null ? '' : measureText(measure, bout[measure]))),
    marks(set),
  ]);
  const line = (tag: string, cells: readonly string[]) =>
    `<tr>${cells.map((text) => `<${tag}>${escaped(text)}</${tag}>`).join('')}</tr>`;
  return `<div class="scroll" tabindex="0" role="region" aria-label="Sets"><table>
<thead>${line('th', titles)}</thead>
<tbody>
${rows.map((row) => line('td', row)).join('\n')}
</tbody>
</table></div>`;
}

function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
