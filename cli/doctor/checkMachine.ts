import { constants } from 'node:fs';
import { access, stat } from 'node:fs/promises';
import { availableParallelism, freemem, totalmem } from 'node:os';
import { dirname } from 'node:path';
import { cacheFolder, dataFolder } from '../folders.js';
import type { Check } from './check.js';

const OLDEST_NODE = 20;

export function checkNode(version: string = process.versions.node): Check {
  const major = Number.parseInt(version, 10);
  return major >= OLDEST_NODE
    ? { name: 'Node', state: 'ok', detail: version, remedy: null }
    : {
        name: 'Node',
        state: 'missing',
        detail: `${version} is too old`,
        remedy: `Install Node ${OLDEST_NODE} or newer.`,
      };
}

export function checkCores(): Check {
  const gibibytes = (bytes: number) => (bytes / 2 ** 30).toFixed(1);
  const detail = `${availableParallelism()} cores, ${gibibytes(freemem())} of ${gibibytes(totalmem())} GiB memory free`;
  return { name: 'Machine', state: 'ok', detail, remedy: null };
}

export function checkFolders(): Promise<Check[]> {
  return Promise.all([
    checkFolder('History folder', dataFolder()),
    checkFolder('Cache folder', cacheFolder()),
  ]);
}

/** A folder that is not there yet counts as fine when it can be made. */
async function checkFolder(name: string, folder: string): Promise<Check> {
  const nearest = await nearestExisting(folder);
  try {
    await access(nearest, constants.W_OK | constants.X_OK);
    if (!(await stat(nearest)).isDirectory()) throw new Error('not a folder');
  } catch {
    const remedy = 'Make it writable, or set TEMPOFILM_HOME to a folder that is.';
    return { name, state: 'missing', detail: `${folder} can't be written`, remedy };
  }
  return {
    name,
    state: 'ok',
    detail: nearest === folder ? folder : `${folder} (made when needed)`,
    remedy: null,
  };
}

async function nearestExisting(path: string): Promise<string> {
  try {
    await stat(path);
    return path;
  } catch {
    return dirname(path) === path ? path : nearestExisting(dirname(path));
  }
}
