import { withHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import { importLines } from '../history/sets/importLines.js';
import { readLines } from '../history/sets/readLines.js';

/** `tempofilm import`: takes in exported sets; all of the file, or nothing. */
export function importHistory(file: string, options: { readonly history?: string | undefined }): void {
  const name = file === '-' ? 'standard input' : file;
  const outcome = withHistory(historyFile(options.history), 'writing', (history) =>
    importLines(history, readLines(file), name),
  );
  const parts = [
    `${outcome.added} added`,
    `${outcome.updated} brought up to date`,
    `${outcome.kept} already here`,
  ];
  process.stdout.write(`${parts.join(', ')}.\n`);
}
