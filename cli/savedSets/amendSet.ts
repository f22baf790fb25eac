import type { RepReport, SetReport } from '../../analysis/report/setReport.js';
import { Failure } from '../../core/failure.js';
import { type History, withHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import { addAmendment, clearAmendments } from '../history/sets/changeSet.js';
import { findSet, namedSet } from '../history/sets/findSet.js';
import { readShown } from '../history/sets/readShown.js';

export interface AmendOptions {
  readonly drop?: readonly number[] | undefined;
  readonly side?: 'left' | 'right' | 'both' | undefined;
  readonly reason?: string | undefined;
  readonly undo?: true | undefined;
  readonly history?: string | undefined;
}

/** `tempofilm amend`: drops reps of a set beside the measurement, or takes the drops back. */
export async function amendSet(name: string, options: AmendOptions): Promise<void> {
  const named = await namedSet(name);
  const text = withHistory(historyFile(options.history), 'writing', (history) => {
    const entry = findSet(history, named);
    return options.undo === true ? undo(history, entry.id) : drop(history, entry.id, options);
  });
  process.stdout.write(`${text}\n`);
}

function undo(history: History, id: number): string {
  const count = clearAmendments(history, id);
  return count === 0
    ? `Set ${id} was not amended.`
    : `Set ${id} reads as measured again; ${count} dropped ${count === 1 ? 'rep is' : 'reps are'} back.`;
}

function drop(history: History, id: number, options: AmendOptions): string {
  const numbers = options.drop ?? [];
  if (numbers.length === 0) {
    throw new Failure('usage', 'Nothing to amend.', 'Say which rep is none with --drop <rep>, or --undo.');
  }
  const { report } = readShown(history, id);
  const reps = numbers.map((number) => repOf(report, number, options.side ?? null));
  for (const rep of reps) {
    addAmendment(history, id, {
      side: rep.side,
      atSeconds: (rep.startSeconds + rep.endSeconds) / 2,
      reason: options.reason ?? null,
      madeAt: new Date().toISOString(),
    });
  }
  const shown = readShown(history, id).report;
  return `Set ${id} amended: ${shown.headline}\nThe measurement is kept beside it; tempofilm amend ${id} --undo takes this back.`;
}

/** The rep of that number as the set is shown now. */
function repOf(report: SetReport, number: number, side: RepReport['side'] | null): RepReport {
  const found = report.bouts
    .filter((bout) => side === null || bout.side === side)
    .flatMap((bout) => bout.reps.filter((rep) => rep.number === number));
  if (found.length === 1) return found[0]!;
  if (found.length === 0)
    throw new Failure(
      'usage',
      `The set has no rep ${number}${side === null ? '' : ` on the ${side}`}.`,
      'tempofilm show tells the numbers of its reps.',
    );
  throw new Failure(
    'usage',
    `The set has a rep ${number} in several bouts.`,
    'Say which with --side left or --side right.',
  );
}
