/** The program of the process that looks for a graphics adapter and says what it found. */
import type { Graphics } from './graphicsAdapter.js';
import { openGraphics } from './openGraphics.js';

const opened = await openGraphics();
const answer: Graphics =
  opened.adapter === null
    ? { kind: 'none', reason: opened.reason }
    : { kind: 'adapter', name: opened.name, software: opened.software };
process.send?.(answer, undefined, undefined, () => process.exit());
