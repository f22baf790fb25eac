import { basename } from 'node:path';
import { NO_GOAL } from '../../../analysis/report/cautions.js';
import { repsInWords } from '../../../analysis/scoring/firstOfTwoInARow.js';
import type { PairedValue, WholeDifference } from '../../../analysis/trends/compareBouts.js';
import {
  agreementSentences,
  type ComparedPair,
  type ComparedSets,
  comparedSetName,
  comparisonSentence,
  pairName,
  unlikeViewsSentence,
} from '../comparison/comparisonWords.js';
import { MEASURE_NAMES, UNITS } from '../words/measureWords.js';
import { decimal, plusMinus } from '../words/numbers.js';
import { firstAgainstSecondChart, type ValueOfOne } from './charts/firstAgainstSecond.js';
import { sideDifferencesChart } from './charts/sideDifferences.js';
import { pageDocument } from './layout/document.js';
import { html, type Markup } from './layout/markup.js';
import { picture } from './layout/picture.js';
import { plainHeader, plainMethod } from './layout/plainSections.js';

/** Two sets side by side as one self-contained page: what really differs, rep by rep and as a whole. */
export function comparisonPage(compared: ComparedSets): string {
  const { first, second, pairs } = compared;
  const body = html`${plainHeader(
    `${first.exercise.name} · one set against another`,
    pairs.map(comparisonSentence),
    [
      { name: 'First (●)', value: comparedSetName(first) },
      { name: 'Second (□)', value: comparedSetName(second) },
    ],
  )}
<main>
${first.invented || second.invented ? html`<p class="key">Sets marked “invented” are made up for demonstration; nobody lifted them.</p>` : null}
${pairs.map(pairSection)}
${plainMethod([
  'Differences are second minus first. “The camera can tell” means that the 95 % interval of the difference leaves out zero and that the difference is more than the measurement’s own error; everything else may be chance or measurement.',
  'Limits of agreement (Bland and Altman) say between which values 95 % of the differences from rep to rep lie. A camera sees no strength. ' +
    NO_GOAL,
])}
</main>
<footer><p>Made by tempofilm from ${basename(first.filmFile)} and ${basename(second.filmFile)}.</p></footer>`;
  return pageDocument({ title: `${first.exercise.name}: one set against another`, body, script: null });
}

function pairSection(pair: ComparedPair, index: number): Markup {
  const id = `pair-${index + 1}`;
  return html`<section aria-labelledby="${id}"><h2 id="${id}">${pairName(pair)}</h2>
<div class="pictures large">${wholePicture(pair)}${repsPicture(pair, 'eccentric', 'Lowering', 's', 1)}${repsPicture(pair, 'concentric', 'Lift', 's', 1)}${repsPicture(pair, 'range', 'Range', '°', 0)}</div>
${pair.comparison.degreesCompared ? null : html`<p>${unlikeViewsSentence(pair)}</p>`}
${agreementSentences(pair.comparison).map((sentence) => html`<p>${sentence}</p>`)}
</section>`;
}

/** Two sets of one side are the first and the second; two sides name themselves. */
function whose(which: 'first' | 'second', { first, second }: ComparedPair): string {
  if (first.side === second.side) return `${which} set`;
  const { side } = which === 'first' ? first : second;
  return side === 'both' ? 'set of both sides' : `${side} side`;
}

function wholePicture(pair: ComparedPair): Markup | null {
  const { whole } = pair.comparison;
  if (whole.length === 0) return null;
  const sentence = comparisonSentence(pair);
  const charted = whole.flatMap((one) => {
    const mean = (Math.abs(one.first) + Math.abs(one.second)) / 2;
    if (mean === 0) return [];
    return [
      {
        name: MEASURE_NAMES[one.measure],
        share: one.difference / mean,
        interval: [one.interval[0] / mean, one.interval[1] / mean] as const,
        different: one.told,
      },
    ];
  });
  return picture({
    title: 'As a whole',
    caption:
      'Lines are 95 % intervals of the difference; a filled circle is a difference the camera can tell, a hollow one is not.',
    charts: [
      sideDifferencesChart(charted, sentence, {
        title: 'Second against first',
        axis: 'second minus first, % of their mean',
        less: 'less in the second',
        more: 'more in the second',
      }),
    ],
    numbers: {
      columns: ['Mean', 'first', 'second', 'second minus first', '95 % interval', 'the camera can tell'],
      rows: whole.map(wholeRow),
    },
  });
}

function wholeRow(one: WholeDifference): readonly string[] {
  const { text, decimals } = UNITS[one.unit];
  return [
    MEASURE_NAMES[one.measure],
    `${decimal(one.first, decimals)}${text}`,
    `${decimal(one.second, decimals)}${text}`,
    `${decimal(one.difference, decimals)}${text}`,
    one.measure === 'reps'
      ? '–'
      : `${decimal(one.interval[0], decimals)} to ${decimal(one.interval[1], decimals)}`,
    one.told ? 'yes' : 'no',
  ];
}

/** One measure rep by rep; null where neither set has it. */
function repsPicture(
  pair: ComparedPair,
  measure: 'eccentric' | 'concentric' | 'range',
  name: string,
  unit: string,
  decimals: number,
): Markup | null {
  const reps = pair.comparison.reps.map((rep) => ({ number: rep.number, ...rep[measure] }));
  const values = reps.flatMap(({ number, first, second }): ValueOfOne[] => [
    ...(first === null ? [] : [{ rep: number, which: 'first' as const, ...first }]),
    ...(second === null ? [] : [{ rep: number, which: 'second' as const, ...second }]),
  ]);
  if (values.length === 0) return null;
  const told = reps.filter((rep) => rep.told).map((rep) => rep.number);
  const where = told.length === 0 ? 'no rep' : told.length === reps.length ? 'every rep' : repsInWords(told);
  const caption = `Circles are the ${whose('first', pair)}, squares the ${whose('second', pair)}. In ${where} the difference is more than the measurement alone would make.`;
  const cell = (value: PairedValue['first']) =>
    value === null ? '–' : `${decimal(value.value, decimals)} ${plusMinus(value.uncertainty, decimals)}`;
  return picture({
    title: `${name}, rep by rep`,
    caption,
    charts: [firstAgainstSecondChart(`${name}, rep by rep`, unit, values, caption)],
    numbers: {
      columns: ['Rep', `first, ${unit}`, `second, ${unit}`, 'second minus first', 'the camera can tell'],
      rows: reps.map(({ number, first, second, difference, told: isTold }) => [
        String(number),
        cell(first),
        cell(second),
        cell(difference),
        difference === null ? '–' : isTold ? 'yes' : 'no',
      ]),
    },
  });
}
