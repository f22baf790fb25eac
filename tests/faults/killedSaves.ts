import { type ChildProcess, spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { openHistory } from '../../cli/history/file/history.js';

const WRITER = fileURLToPath(new URL('./saveWithoutEnd.mjs', import.meta.url));

/** What a writer reported as saved before it ended. */
export interface Writer {
  readonly reported: string[];
  readonly process: ChildProcess;
  readonly opened: Promise<void>;
  readonly ended: Promise<void>;
  readonly faults: string[];
}

/** Starts a process that saves sets until it is killed or has saved `most`. */
export function startWriter(file: string, name: string, most: number): Writer {
  const child = spawn(process.execPath, [WRITER, file, name, String(most)], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const reported: string[] = [];
  const faults: string[] = [];
  const lines = createInterface({ input: child.stdout! });
  child.stderr!.on('data', (data) => faults.push(String(data)));
  let open: () => void = () => {};
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  lines.on('line', (line) => {
    if (line === 'open') open();
    else reported.push(line);
  });
  const ended = new Promise<void>((resolve) => {
    let parts = 2;
    const end = () => {
      parts -= 1;
      if (parts === 0) resolve();
    };
    child.on('exit', end);
    lines.on('close', end);
  });
  return { reported, process: child, opened, ended, faults };
}

/** Everything wrong with a history after its writers ended; empty where all is well. */
export function problemsOf(file: string, reported: readonly string[]): readonly string[] {
  const history = openHistory(file, 'reading');
  try {
    return history.read((database) => {
      const names = (sql: string) => database.all(sql).map((row) => String(Object.values(row)[0]));
      const saved = new Set(names('SELECT film_key FROM sets'));
      const half = names(
        `SELECT film_key FROM sets WHERE
           id NOT IN (SELECT set_id FROM reports) OR id NOT IN (SELECT set_id FROM tracks) OR
           id NOT IN (SELECT set_id FROM bouts) OR
           (SELECT length(track) FROM tracks WHERE set_id = sets.id) <> 60000 OR
           (SELECT json_valid(report) FROM reports WHERE set_id = sets.id) <> 1 OR
           (SELECT count(*) FROM bouts WHERE set_id = sets.id) <>
             (SELECT json_array_length(report, '$.bouts') FROM reports WHERE set_id = sets.id)`,
      );
      const check = names('PRAGMA integrity_check').filter((line) => line !== 'ok');
      return [
        ...reported.filter((film) => !saved.has(film)).map((film) => `lost: ${film}`),
        ...half.map((film) => `half there: ${film}`),
        ...check.map((line) => `integrity: ${line}`),
        ...database.all('PRAGMA foreign_key_check').map((row) => `no set: ${JSON.stringify(row)}`),
      ];
    });
  } finally {
    history.close();
  }
}

/**
 * Saves into one history, killing the writer at a random moment each time.
 *
 * @returns how many sets were reported saved, over how many kills, and what was wrong after any of them.
 */
export async function killSaves(
  file: string,
  kills: number,
  mostMillisecondsAlive: number,
): Promise<{ readonly reported: number; readonly problems: readonly string[] }> {
  const reported: string[] = [];
  for (let kill = 0; kill < kills; kill += 1) {
    const writer = startWriter(file, `writer ${kill}`, 1_000_000);
    await writer.opened;
    await new Promise((resolve) => setTimeout(resolve, Math.random() * mostMillisecondsAlive));
    writer.process.kill('SIGKILL');
    await writer.ended;
    reported.push(...writer.reported);
    const problems = problemsOf(file, reported);
    if (problems.length > 0) return { reported: reported.length, problems };
  }
  return { reported: reported.length, problems: [] };
}
