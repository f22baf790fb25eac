import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Version of this program, from the package it was installed with. */
export const PROGRAM_VERSION: string = readVersion(dirname(fileURLToPath(import.meta.url)));

/** The sources and the build lie at different depths below the package's folder. */
function readVersion(folder: string): string {
  for (let above = folder; above !== dirname(above); above = dirname(above)) {
    const description = readPackage(join(above, 'package.json'));
    if (description?.name === 'tempofilm' && description.version !== undefined) return description.version;
  }
  throw new Error('package.json of tempofilm was not found above the program');
}

function readPackage(path: string): { name?: string; version?: string } | null {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return null;
  }
}
