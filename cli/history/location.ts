import { statSync } from 'node:fs';
import { homedir } from 'node:os';
import path from 'node:path';

const FILE_NAME = 'history.sqlite';

/** What decides where the history lies: the environment, the operating system, the user's home. */
export interface Surroundings {
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly platform: NodeJS.Platform;
  readonly home: string;
}

export function currentSurroundings(): Surroundings {
  return { environment: process.env, platform: process.platform, home: homedir() };
}

/**
 * The folder for data this program keeps: `TEMPOFILM_HOME` when set, else the folder the operating
 * system sets aside for it (XDG base directories on Linux, Application Support on macOS, the roaming
 * application data on Windows).
 */
export function dataFolder(surroundings: Surroundings = currentSurroundings()): string {
  const { environment, platform, home } = surroundings;
  const chosen = environment['TEMPOFILM_HOME'];
  if (chosen) return path.resolve(chosen);
  if (platform === 'darwin') return path.join(home, 'Library', 'Application Support', 'tempofilm');
  if (platform === 'win32') {
    return path.join(environment['APPDATA'] || path.join(home, 'AppData', 'Roaming'), 'tempofilm');
  }
  // The XDG specification tells programs to ignore a relative path.
  const shared = environment['XDG_DATA_HOME'];
  return path.join(
    shared && path.isAbsolute(shared) ? shared : path.join(home, '.local', 'share'),
    'tempofilm',
  );
}

/** The history file: the one named by `--history` (a folder means the usual name inside it), else the usual one. */
export function historyFile(named: string | undefined, surroundings?: Surroundings): string {
  if (named === undefined) return path.join(dataFolder(surroundings), FILE_NAME);
  const resolved = path.resolve(named);
  return isFolder(resolved) ? path.join(resolved, FILE_NAME) : resolved;
}

/** Backups lie in a folder beside the history file. */
export function backupFolder(file: string): string {
  return path.join(path.dirname(file), 'backups');
}

function isFolder(file: string): boolean {
  return statSync(file, { throwIfNoEntry: false })?.isDirectory() ?? false;
}
