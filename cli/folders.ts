import { homedir } from 'node:os';
import { isAbsolute, join, resolve } from 'node:path';

/** What decides where files are kept: the environment, the operating system, the user's home. */
export interface Surroundings {
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly platform: NodeJS.Platform;
  readonly home: string;
}

function currentSurroundings(): Surroundings {
  return { environment: process.env, platform: process.platform, home: homedir() };
}

/** Where the history and the user's own exercises are kept. `TEMPOFILM_HOME` overrides the system's place. */
export function dataFolder(surroundings: Surroundings = currentSurroundings()): string {
  const { environment, platform, home } = surroundings;
  const chosen = environment['TEMPOFILM_HOME'];
  if (chosen) return resolve(chosen);
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'tempofilm');
  if (platform === 'win32') {
    return join(environment['APPDATA'] || join(home, 'AppData', 'Roaming'), 'tempofilm');
  }
  return join(baseDirectory(environment['XDG_DATA_HOME']) ?? join(home, '.local', 'share'), 'tempofilm');
}

/** Where pose tracks are kept: deleting this folder loses time, never results. */
export function cacheFolder(surroundings: Surroundings = currentSurroundings()): string {
  const { environment, platform, home } = surroundings;
  const chosen = environment['TEMPOFILM_HOME'];
  if (chosen) return join(resolve(chosen), 'cache');
  if (platform === 'darwin') return join(home, 'Library', 'Caches', 'tempofilm');
  if (platform === 'win32') {
    return join(environment['LOCALAPPDATA'] || join(home, 'AppData', 'Local'), 'tempofilm', 'cache');
  }
  return join(baseDirectory(environment['XDG_CACHE_HOME']) ?? join(home, '.cache'), 'tempofilm');
}

/** The XDG base directory specification asks to ignore empty and relative values. */
function baseDirectory(value: string | undefined): string | null {
  return value && isAbsolute(value) ? value : null;
}
