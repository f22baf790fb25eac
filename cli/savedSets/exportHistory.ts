import { open } from 'node:fs/promises';
import path from 'node:path';
import { produceAside } from '../../core/media/writeAside.js';
import { type History, openHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import { exportLines } from '../history/sets/exportLines.js';
import { readEntries, type Selection } from '../history/sets/readEntries.js';
import { historyCsv } from '../views/history/historyCsv.js';

export interface ExportQuestion {
  readonly format: 'json-lines' | 'csv';
  readonly since?: string | undefined;
  readonly lifter?: string | undefined;
  readonly tracks: boolean;
  readonly output?: string | undefined;
  readonly force?: true | undefined;
  readonly history?: string | undefined;
}

/** `tempofilm export`: the sets as text that any program reads, to standard output or into a file. */
export async function exportHistory(question: ExportQuestion): Promise<void> {
  const history = openHistory(historyFile(question.history), 'reading');
  try {
    const selection = { since: question.since ?? null, lifter: question.lifter ?? null };
    const pieces = piecesOf(history, selection, question);
    if (question.output === undefined) {
      for (const piece of pieces) await written(piece);
      return;
    }
    await produceAside(path.resolve(question.output), { force: question.force === true }, async (file) => {
      const handle = await open(file, 'wx');
      try {
        for (const piece of pieces) await handle.write(piece);
        await handle.sync();
      } finally {
        await handle.close();
      }
    });
    process.stdout.write(`Exported to ${question.output}\n`);
  } finally {
    history.close();
  }
}

function* piecesOf(
  history: History,
  selection: Selection,
  { format, tracks }: ExportQuestion,
): Generator<string> {
  if (format === 'csv') yield historyCsv(readEntries(history, selection), null);
  else for (const line of exportLines(history, { selection, tracks })) yield `${line}\n`;
}

/** Waits for a slow reader, so that a long history does not pile up in memory. */
async function written(piece: string): Promise<void> {
  if (process.stdout.write(piece)) return;
  await new Promise<void>((resolve) => process.stdout.once('drain', resolve));
}
