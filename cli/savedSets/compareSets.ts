import type { BoutReport } from '../../analysis/report/setReport.js';
import { compareBouts } from '../../analysis/trends/compareBouts.js';
import { Failure } from '../../core/failure.js';
import { refuseUnlessWritable } from '../../core/media/writeAside.js';
import { EXIT, type ExitCode } from '../exitCode.js';
import { writePage } from '../output/writePage.js';
import { comparisonJson } from '../views/comparison/comparisonJson.js';
import { comparisonScreen } from '../views/comparison/comparisonScreen.js';
import type { ComparedSets } from '../views/comparison/comparisonWords.js';
import { styleOf } from '../views/terminal/style.js';
import { type Chosen, chooseSets, type FilmQuestion } from './chooseCompared.js';

export interface CompareOptions extends FilmQuestion {
  readonly format: 'text' | 'json';
  readonly page?: string | undefined;
  readonly force?: true | undefined;
}

/** `tempofilm compare`: one set, or one side of it, against another; films that are not saved are measured first. */
export async function compareSets(first: string, second: string, options: CompareOptions): Promise<ExitCode> {
  if (options.page !== undefined) await refuseUnlessWritable(options.page, { force: options.force === true });
  const chosen = await chooseSets(first, second, options);
  if (chosen === null) return EXIT.cannotAnswer;
  const compared = comparedOf(...chosen);
  if (options.page !== undefined) {
    const { comparisonPage } = await import('../views/page/comparisonPage.js');
    await writePage(options.page, comparisonPage(compared), options.force === true);
  }
  process.stdout.write(
    options.format === 'json'
      ? `${JSON.stringify(comparisonJson(compared))}\n`
      : comparisonScreen(compared, styleOf(process.stdout)),
  );
  return EXIT.answered;
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
