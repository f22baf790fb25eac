import { createInterface } from 'node:readline/promises';
import { Failure } from '../../core/failure.js';
import { withHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import { deleteSet } from '../history/sets/changeSet.js';
import { findSet, namedSet } from '../history/sets/findSet.js';
import { dayText } from '../views/words/days.js';

/**
 * `tempofilm delete`: asks, then deletes sets. The films are never touched.
 *
 * @throws Failure of kind `usage` where nobody can be asked and `--yes` was not given.
 */
export async function deleteSets(
  names: readonly string[],
  options: { readonly yes?: true | undefined; readonly history?: string | undefined },
): Promise<void> {
  const file = historyFile(options.history);
  const named = await Promise.all(names.map(namedSet));
  const found = withHistory(file, 'reading', (history) => named.map((one) => findSet(history, one)));
  const entries = [...new Map(found.map((entry) => [entry.id, entry])).values()];
  const lines = entries.map(
    ({ id, exercise, recordedAt }) => `set ${id}, ${exercise.name}, ${dayText(recordedAt.instant)}`,
  );
  if (options.yes !== true && !(await confirmed(lines))) {
    process.stdout.write('Nothing was deleted.\n');
    return;
  }
  withHistory(file, 'writing', (history) => {
    for (const entry of entries) deleteSet(history, entry.id);
  });
  process.stdout.write(lines.map((line) => `Deleted ${line}.\n`).join(''));
}

async function confirmed(lines: readonly string[]): Promise<boolean> {
  if (process.stdin.isTTY !== true) {
    throw new Failure(
      'usage',
      'Deleting asks first, and there is nobody to ask here.',
      'Add --yes to delete without asking.',
    );
  }
  const questions = createInterface({ input: process.stdin, output: process.stderr });
  try {
    const answer = await questions.question(`Delete ${lines.join('; ')}? The film stays. [y/N] `);
    return /^y(es)?$/i.test(answer.trim());
  } finally {
    questions.close();
  }
}
