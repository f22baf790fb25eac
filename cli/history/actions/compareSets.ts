import type { BoutReport, SetReport } from '../../../analysis/report/setReport.js';
import { compareBouts } from '../../../analysis/trends/compareBouts.js';
import { Failure } from '../../../core/failure.js';
import { comparisonJson } from '../../views/history/comparisonJson.js';
import { type ComparedSets, comparisonScreen } from '../../views/history/comparisonScreen.js';
import { styleOf } from '../../views/terminal/style.js';
import { findSetOrFilm } from '../findSet.js';
import { type History, openHistory } from '../history.js';
import { historyFile } from '../location.js';
import { readShown } from '../readShown.js';

type Side = BoutReport['side'];

/** `tempofilm compare`: one set, or one side of it, against another. */
export async function compareSets(
  first: string,
  second: string,
  options: { readonly format: 'text' | 'json'; readonly history?: string | undefined },
): Promise<void> {
  const history = openHistory(historyFile(options.history), 'reading');
  try {
    const compared = comparedOf(await chosen(history, first), await chosen(history, second));
    process.stdout.write(
      options.format === 'json'
        ? `${JSON.stringify(comparisonJson(compared))}\n`
        : comparisonScreen(compared, styleOf(process.stdout)),
    );
  } finally {
    history.close();
  }
}

interface Chosen {
  readonly name: string;
  readonly set: ComparedSets['first'];
  readonly report: SetReport;
  /** The side asked for with `12:left`; null for whatever there is. */
  readonly side: Side | null;
}

async function chosen(history: History, named: string): Promise<Chosen> {
  const match = /^(.+):(left|right|both)$/.exec(named);
  const set = await findSetOrFilm(history, match?.[1] ?? named);
  return {
    name: named,
    set,
    report: readShown(history, set.id).report,
    side: (match?.[2] as Side | undefined) ?? null,
  };
}

/** Side with like side where both sets have it; else the one bout of each, such as left against right. */
function comparedOf(first: Chosen, second: Chosen): ComparedSets {
  if (first.report.exercise.id !== second.report.exercise.id) {
    throw new Failure(
      'usage',
      `${first.name} is ${first.report.exercise.name} and ${second.name} is ${second.report.exercise.name}.`,
      'Compare two sets of the same exercise.',
    );
  }
  const [ones, others] = [boutsOf(first), boutsOf(second)];
  const common = ones.flatMap((one) => {
    const other = others.find((candidate) => candidate.side === one.side);
    return other === undefined ? [] : [{ first: one, second: other }];
  });
  const pairs = common.length > 0 ? common : [{ first: ones[0]!, second: others[0]! }];
  return {
    first: first.set,
    second: second.set,
    pairs: pairs.map((pair) => ({ ...pair, comparison: compareBouts(pair.first, pair.second) })),
  };
}

/** The first bout of each side. */
function boutsOf({ report, side, name }: Chosen): readonly BoutReport[] {
  const bouts = report.bouts.filter(
    (bout, index) =>
      report.bouts.findIndex((other) => other.side === bout.side) === index &&
      (side === null || bout.side === side),
  );
  if (bouts.length === 0) throw new Failure('usage', `${name} has no reps of that side.`);
  return bouts;
}
